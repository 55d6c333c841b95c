using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>Numbered messages to the controller's calls; the answer is its.</summary>
internal static class Messages
{
    public static Refusal Execute(Controller controller, MessageType type, ReadOnlySpan<byte> body) => type switch
    {
        MessageType.SetMachine => SetMachine.TryRead(body, out var machine) ? controller.Set(setup => setup.Set(machine)) : Refusal.BadValue,
        MessageType.SetAxis => SetAxis.TryRead(body, out var axis) ? controller.Set(setup => setup.Set(axis)) : Refusal.BadValue,
        MessageType.SetHead => SetHead.TryRead(body, out var head) ? controller.Set(setup => setup.Set(head)) : Refusal.BadValue,
        MessageType.Begin => Begin.TryRead(body, out var begin) ? controller.Begin(begin) : Refusal.BadValue,
        MessageType.Command => Command.TryRead(body, out var command) ? controller.Command(command.Value) : Refusal.BadValue,
        MessageType.Records => Records.TryRead(body, out var records)
            ? controller.Take(records.FirstIndex, records.Octets)
            : Refusal.BadValue,
        MessageType.StoreBegin => StoreBegin.TryRead(body, out var store) ? controller.BeginStoring(store.ImageLength) : Refusal.BadValue,
        MessageType.StoreData => StoreData.TryRead(body, out var data) ? controller.Store.Take(data.Offset, data.Octets) : Refusal.BadValue,
        MessageType.StoreCommit => StoreCommit.TryRead(body, out var commit) ? controller.Store.Commit(commit.ImageFcs) : Refusal.BadValue,
        MessageType.StoreRead => StoreRead.TryRead(body, out var read) ? controller.Store.Ask(read) : Refusal.BadValue,
        MessageType.BeginStored => BeginStored.TryRead(body, out var stored) ? controller.BeginStored(stored.RunId) : Refusal.BadValue,
        _ => Refusal.UnknownMessage,
    };
}

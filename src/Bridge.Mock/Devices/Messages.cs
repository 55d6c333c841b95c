using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>Numbered messages to the controller's calls; the answer is its.</summary>
internal static class Messages
{
    public static Answer Execute(Controller controller, MessageType type, ReadOnlySpan<byte> body) => type switch
    {
        MessageType.SetMachine => SetMachine.TryRead(body, out var machine) ? controller.Set(setup => setup.Set(machine)) : Answer.BadValue,
        MessageType.SetAxis => SetAxis.TryRead(body, out var axis) ? controller.Set(setup => setup.Set(axis)) : Answer.BadValue,
        MessageType.SetHead => SetHead.TryRead(body, out var head) ? controller.Set(setup => setup.Set(head)) : Answer.BadValue,
        MessageType.Begin => Begin.TryRead(body, out var begin) ? controller.Begin(begin) : Answer.BadValue,
        MessageType.Command => Command.TryRead(body, out var command) ? controller.Command(command.Value) : Answer.BadValue,
        MessageType.Records => Records.TryRead(body, out var records)
            ? controller.Take(records.FirstIndex, records.Octets)
            : Answer.BadValue,
        MessageType.StoreBegin => StoreBegin.TryRead(body, out var store) ? controller.BeginStoring(store.ImageLength) : Answer.BadValue,
        MessageType.StoreData => StoreData.TryRead(body, out var data) ? controller.TakeStored(data.Offset, data.Octets) : Answer.BadValue,
        MessageType.StoreCommit => StoreCommit.TryRead(body, out var commit) ? controller.CommitStored(commit.ImageFcs) : Answer.BadValue,
        MessageType.StoreRead => StoreRead.TryRead(body, out var read) ? controller.Ask(read) : Answer.BadValue,
        MessageType.BeginStored => BeginStored.TryRead(body, out var stored) ? controller.BeginStored(stored.RunId) : Answer.BadValue,
        MessageType.ReferenceRead => ReferenceRead.TryRead(body, out _) ? controller.AskReferences() : Answer.BadValue,
        _ => Answer.UnknownMessage,
    };
}

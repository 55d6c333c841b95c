using Bridge.Wire;

namespace Bridge.Panel;

/// <summary>What brings a machine to rest: Hold, Stop, and Abort, each of which outweighs the one before.</summary>
internal static class ToRest
{
    /// <summary>The most of what was asked; null where nothing that was asked keeps the machine at rest: Unhold takes back a Hold, and nothing else.</summary>
    /// <param name="asked">The most so far.</param>
    /// <param name="command">What is asked now.</param>
    public static MachineCommand? Most(MachineCommand? asked, MachineCommand command) => (asked, command) switch
    {
        (MachineCommand.Abort, _) or (_, MachineCommand.Abort) => MachineCommand.Abort,
        (MachineCommand.Stop, _) or (_, MachineCommand.Stop) => MachineCommand.Stop,
        (_, MachineCommand.Hold) => MachineCommand.Hold,
        (_, MachineCommand.Unhold) => null,
        _ => asked,
    };
}

using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Station;

/// <summary>What a character display says: the state, and what a person should do or where the head is.</summary>
public static class DisplayText
{
    /// <summary>Lines of just so many characters.</summary>
    public static IReadOnlyList<string> Of(RunProgress run, bool eStopIsClosed, int columns, int lines)
    {
        IEnumerable<string> said = [State(run, eStopIsClosed), ToDo(run, eStopIsClosed), Place(run), $"{run.Records} of {run.RecordsInAll}"];
        return [.. said.Where(words => words.Length > 0).Concat(Enumerable.Repeat("", lines)).Take(lines).Select(words => words.PadRight(columns)[..columns])];
    }

    private static string State(RunProgress run, bool eStopIsClosed) =>
        !eStopIsClosed ? "E-STOP IS OPEN" : run.State == MachineState.Undefined ? "Connecting" : run.State.ToString();

    private static string ToDo(RunProgress run, bool eStopIsClosed) => run switch
    {
        _ when !eStopIsClosed => "Motors off",
        { AwaitsStart: true } => "Press start",
        { State: MachineState.Held, Cause: StateCause.OperatorWait } => "Your turn, start",
        { State: MachineState.Held } or { IsHeldBack: true } => "Start goes on",
        { State: MachineState.Aborted } => "Motors off",
        _ => "",
    };

    private static string Place(RunProgress run) => $"Layer {run.Layer} {run.X},{run.Y}";
}

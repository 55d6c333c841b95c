using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.History;

/// <summary>How a page says things.</summary>
internal static class Words
{
    public static string Count(long count, string what) => $"{count} {what}{(count == 1 ? "" : "s")}";

    /// <summary>A moment of the run as h:mm:ss.t.</summary>
    public static string Clock(double seconds)
    {
        var tenths = (long)Math.Round(seconds * 10);
        return $"{tenths / 36000}:{tenths / 600 % 60:00}:{tenths / 10 % 60:00}.{tenths % 10}";
    }

    public static string Place(JobPlace place) =>
        place.Cells == 0 ? Count(place.Records, "record") : $"{Count(place.Records, "record")} and {Count(place.Cells, "cell")}";

    public static string Of(StateSpan span) => span.State == MachineState.Undefined
        ? "connecting"
        : $"{span.State}: {StateWords.Of(span.State)}{(StateWords.Of(span.Cause) is { Length: > 0 } why ? $" ({why})" : "")}";

    public static Tint TintOf(MachineState state) => state switch
    {
        MachineState.Execute or MachineState.Completing => Tint.Work,
        MachineState.Aborting or MachineState.Aborted or MachineState.Stopping => Tint.Trouble,
        MachineState.Holding or MachineState.Held or MachineState.Unholding
            or MachineState.Suspending or MachineState.Suspended or MachineState.Unsuspending => Tint.Hold,
        _ => Tint.Ready,
    };
}

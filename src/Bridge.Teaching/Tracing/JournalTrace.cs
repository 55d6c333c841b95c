using System.Globalization;
using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Teaching;

/// <summary>
/// What the journal of a run knows of its lines, on a board or the mock device: state, record, counter, place and head, as often as the device was heard and
/// written down, five times a second at most. Steps, directions and contacts it does not know.
/// </summary>
public static class JournalTrace
{
    /// <summary>What is missing, for a person.</summary>
    public const string NotThere = "Steps, directions, endstops and the e-stop are not there: a board tells its state and its counters, and not each step. "
        + "The lines change when the journal was written, up to 0.2 s late.";

    private const double TicksPerSecond = 1e7;

    /// <summary>Writes it.</summary>
    /// <exception cref="RefusedException">The journal tells of what cannot be.</exception>
    public static void Write(StoppedRun run, JournalFile journal, Stream stream)
    {
        var (machine, image) = (run.Job.Machine, run.Job.Job.Image);
        using var vcd = new VcdWriter(stream, $"from the journal of a run: {NotThere}", TraceLines.Of(machine, withMotion: false));
        var passes = new PassCounter(image, machine.Grid);
        var course = Course.Whole(image, machine.Grid);
        var (began, ticks) = (0L, 0L);
        foreach (var entry in journal.Entries)
        {
            if (entry.Kind is JournalKind.TakeUp or JournalKind.Restart)
                began = ticks;
            if (entry is { Kind: JournalKind.Restart, Records: { } from })
                (course, passes) = (Course.From(image, machine.Grid, new JobPlace(from, entry.Cells ?? 0)), new PassCounter(image, machine.Grid));
            ticks = Math.Max(ticks, began + (long)Math.Round(entry.Seconds * TicksPerSecond));
            Set(vcd, entry, course, passes, ticks);
        }

        vcd.MoveTo(ticks + 1);
    }

    private static void Set(VcdWriter vcd, JournalEntry entry, Course course, PassCounter passes, long ticks)
    {
        if (Enum.TryParse<MachineState>(entry.State, out var state))
            vcd.Set(TraceSignal.State, (int)state, ticks);
        if (entry is { Kind: JournalKind.State or JournalKind.Done or JournalKind.End, Records: { } records })
        {
            var place = course.PlaceOf(records, entry.Cells ?? 0);
            var (index, cells) = passes.Of(place.Records);
            vcd.Set(TraceSignal.Record, index, ticks);
            vcd.Set(TraceSignal.Counter, Math.Max(0, cells - place.Cells), ticks);
        }

        if (PositionOf(entry.Position) is not { } at)
            return;
        vcd.Set(TraceSignal.X, at.Cell.X, ticks);
        vcd.Set(TraceSignal.Y, at.Cell.Y, ticks);
        vcd.Set(TraceSignal.Layer, at.Layer, ticks);
        vcd.Set(TraceSignal.Head, (int)at.Head, ticks);
    }

    private static Position? PositionOf(string? text)
    {
        if (text?.Split(' ') is not [var x, var y, var layer, ("a" or "b") and var head])
            return null;
        return IsCount(x, out var cellX) && IsCount(y, out var cellY) && IsCount(layer, out var onLayer)
            ? new Position(new Cell(cellX, cellY), onLayer, head == "a" ? Head.A : Head.B)
            : null;

        static bool IsCount(string word, out ushort count) => ushort.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out count);
    }
}

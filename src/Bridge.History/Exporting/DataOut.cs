using System.Globalization;
using System.Text;
using System.Text.Json;
using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.History;

/// <summary>Rows of named values as CSV (RFC 4180) or JSON Lines; DATA.md has the names and units.</summary>
/// <param name="Names">The name of each value, its unit last.</param>
/// <param name="Rows">The values of each row: a text, a number, a date or null.</param>
public sealed record DataOut(IReadOnlyList<string> Names, IReadOnlyList<IReadOnlyList<object?>> Rows)
{
    /// <summary>The runs of a list.</summary>
    public static DataOut Of(IReadOnlyList<RunLine> runs) => new(
        ["run", "began", "machine", "device", "outcome", "records", "records_done", "job_s", "predicted_s", "doubts", "folder_bytes"],
        [.. runs.Select(run => (IReadOnlyList<object?>)[
            run.Name, run.Began, run.Machine, run.Device, run.OutcomeWord, run.Records, run.RecordsDone, run.JobSeconds, run.PredictedSeconds, run.Doubts, run.Bytes])]);

    /// <summary>The events of a run: its journal, with the clock of the whole run.</summary>
    public static DataOut Of(PastRun run)
    {
        var rows = new List<IReadOnlyList<object?>>();
        var replay = new Replay(run, followsCells: false);
        while (replay.TryNext())
        {
            var (entry, at) = (replay.Entry, replay.Entry.Position?.Split(' ') is [var x, var y, var layer, var head] ? (x, y, layer, head) : default);
            rows.Add([entry.N, Math.Round(replay.Seconds, 4), entry.Kind.ToString(), entry.State, entry.Cause, entry.Command,
                entry.Outcome, entry.Records, entry.Cells,
                Number(at.x), Number(at.y), Number(at.layer) ?? entry.Layer, at.head,
                entry.Doubt?.Record, entry.Doubt?.Layer, entry.Doubt?.Cells, entry.Doubt?.RecordsAfter, entry.Doubt?.Decision.ToString(),
                Lost(entry, AxisName.X), Lost(entry, AxisName.Y), Lost(entry, AxisName.Z)]);
        }

        return new DataOut(
            ["entry", "clock_s", "kind", "state", "cause", "command", "outcome", "records", "cells", "x_cell", "y_cell", "layer", "head",
                "doubt_record", "doubt_layer", "doubt_cells", "doubt_records_after", "doubt_decision",
                "lost_x_steps", "lost_y_steps", "lost_z_steps"], rows);
    }

    /// <summary>As CSV: a line of names, then a line for each row; lines end in CR LF, and a value that needs it stands in quotes.</summary>
    public string ToCsv()
    {
        var csv = new StringBuilder().AppendJoin(',', Names).Append("\r\n");
        foreach (var row in Rows)
            csv.AppendJoin(',', row.Select(Csv)).Append("\r\n");
        return csv.ToString();
    }

    /// <summary>As JSON Lines: an object for each row, values that are not known left out.</summary>
    public string ToJsonLines()
    {
        var lines = new StringBuilder();
        foreach (var row in Rows)
            lines.Append(JsonSerializer.Serialize(Names.Zip(row).Where(value => value.Second is not null)
                .ToDictionary(value => value.First, value => value.Second)))
                .Append('\n');
        return lines.ToString();
    }

    private static int? Lost(JournalEntry entry, AxisName axis) => entry.Lost?.FirstOrDefault(lost => lost.Axis == axis)?.Steps;

    private static long? Number(string? text) =>
        long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) ? number : null;

    private static string Csv(object? value)
    {
        var text = value switch
        {
            DateTimeOffset at => at.ToString("O", CultureInfo.InvariantCulture),
            IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
            _ => value?.ToString() ?? "",
        };
        return text.AsSpan().IndexOfAny(",\"\r\n") >= 0 ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : text;
    }
}

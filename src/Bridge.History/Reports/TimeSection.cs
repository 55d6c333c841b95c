using System.Globalization;

namespace Bridge.History;

/// <summary>The part of a report about time: predicted beside measured.</summary>
internal static class TimeSection
{
    private const int MostLayers = 300;
    private const int MostRecords = 20;

    public static Section Of(PastRun run, JobTimes times)
    {
        var layers = LayerTime.Of(times);
        var differ = Enumerable.Range(0, times.Done).OrderByDescending(record => Math.Abs(times.Measured(record) - times.Predicted(record)))
            .Take(MostRecords).Where(record => Math.Abs(times.Measured(record) - times.Predicted(record)) >= JobTimes.ResolutionSeconds).ToList();
        return new Section("Time", [
            new Block.Facts(
                ("predicted", $"{Seconds(times.PredictedSeconds)} for what was done"),
                ("measured", $"{Seconds(times.MeasuredSeconds)} at work, holds left out"),
                ("difference", $"{Signed(times.MeasuredSeconds - times.PredictedSeconds)} s"),
                ("records timed", $"{times.Done} of {times.Records}")),
            new Block.Table(["layer", "records", "predicted, s", "measured, s", "difference, s"], [.. layers.Take(MostLayers).Select(layer =>
                Row($"{layer.Layer}", layer.Records, layer.PredictedSeconds, layer.MeasuredSeconds))]),
            new Block.Words(differ.Count == 0
                ? $"No record took longer or shorter than predicted by {JobTimes.ResolutionSeconds} s, which is how finely the journal tells."
                : $"The records that differ most from their prediction, by {JobTimes.ResolutionSeconds} s or more; the journal tells no finer:"),
            .. differ.Count == 0 ? Array.Empty<Block>() : [new Block.Table(["record", "layer", "predicted, s", "measured, s", "difference, s"],
                [.. differ.Select(record => Row($"{record}", times.LayerOf(record), times.Predicted(record), times.Measured(record)))])]]);
    }

    private static IReadOnlyList<string> Row(string first, int second, double predicted, double measured) =>
        [first, second.ToString(CultureInfo.InvariantCulture), Number(predicted), Number(measured), Signed(measured - predicted)];

    private static string Seconds(double seconds) => $"{Number(seconds)} s";

    private static string Number(double value) => value.ToString("0.00", CultureInfo.InvariantCulture);

    private static string Signed(double value) => value.ToString("+0.00;-0.00;0.00", CultureInfo.InvariantCulture);
}

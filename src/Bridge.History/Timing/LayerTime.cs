namespace Bridge.History;

/// <summary>What a layer's records were predicted to take and took.</summary>
/// <param name="Layer">The layer, from 0.</param>
/// <param name="Records">Its records that were done.</param>
/// <param name="PredictedSeconds">Predicted for those.</param>
/// <param name="MeasuredSeconds">Measured for those.</param>
public sealed record LayerTime(int Layer, int Records, double PredictedSeconds, double MeasuredSeconds)
{
    /// <summary>Of each layer that had a record done, lowest first.</summary>
    public static IReadOnlyList<LayerTime> Of(JobTimes times) =>
        [.. Enumerable.Range(0, times.Done).GroupBy(times.LayerOf).OrderBy(layer => layer.Key).Select(layer => new LayerTime(
            layer.Key, layer.Count(), layer.Sum(record => times.Predicted(record)), layer.Sum(record => times.Measured(record))))];
}

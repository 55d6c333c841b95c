namespace Bridge.History;

/// <summary>Where the points and lines of a chart lie: 0 at the left and at the top.</summary>
internal sealed class ChartScale
{
    private readonly Block.Chart _chart;
    private readonly double _width;
    private readonly double _height;
    private readonly double _least;
    private readonly double _most;

    public ChartScale(Block.Chart chart, double width, double height)
    {
        (_chart, _width, _height) = (chart, width, height);
        var values = chart.Points.Concat(Lines.Select(line => line.Value)).Append(0).ToList();
        (_least, _most) = (values.Min(), values.Max());
        if (_most - _least < 1e-9)
            (_least, _most) = (_least - 1, _most + 1);
    }

    /// <summary>The lines there are, by their names.</summary>
    public IEnumerable<(string Name, double Value)> Lines =>
        new[] { ("mean", _chart.Center), ("limit", _chart.Lower), ("limit", _chart.Upper) }.Where(line => line.Item2 is not null)
            .Select(line => (line.Item1, line.Item2!.Value));

    public double X(int index) => _chart.Points.Count < 2 ? _width / 2 : _width * index / (_chart.Points.Count - 1);

    public double Y(double value) => _height * (_most - value) / (_most - _least);

    public bool IsBeyond(double value) => value < _chart.Lower || value > _chart.Upper;
}

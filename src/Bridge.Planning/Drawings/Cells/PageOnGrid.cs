using Bridge.Jobs;
using SkiaSharp;

namespace Bridge.Planning;

/// <summary>Where a page lies on the grid: turned about its middle, made as large as was asked, its lower left corner at its place.</summary>
internal sealed class PageOnGrid
{
    private const double Slack = 1e-6; // cells that a size may be off by rounding

    private readonly double _width;
    private readonly double _height;
    private readonly (double Sine, double Cosine) _turn;
    private readonly (double X, double Y) _scale; // cells for a unit
    private readonly (double X, double Y) _middle; // in cells

    /// <summary>Lays a page out.</summary>
    /// <exception cref="RefusedException">It does not lie on the largest grid allowed, or a turn is not about Z.</exception>
    public PageOnGrid(Drawing page, string name, ShapeOptions options)
    {
        (_width, _height) = (page.Width, page.Height);
        _turn = Whole(options.Turns, name);
        var (across, along) = Turned();
        var margin = page.IsOfCellCentres ? 1 : 0;
        var unitMm = UnitMm(page, options, margin, across, along);
        _scale = (unitMm / options.Pitch.X, unitMm / options.Pitch.Y);
        var (cellsX, cellsY) = (across * _scale.X + margin, along * _scale.Y + margin);
        var (x, y) = options.Place.InCells(Math.Ceiling(cellsX - Slack), Math.Ceiling(cellsY - Slack), options);
        Check(x + cellsX, y + cellsY, name, options.Limit);
        _middle = (x + cellsX / 2, y + cellsY / 2);
        (Left, Bottom) = ((int)x, (int)y);
        (Width, Depth) = (CellsTo(x + cellsX) - Left, CellsTo(y + cellsY) - Bottom);
    }

    /// <summary>The first column of cells that it touches.</summary>
    public int Left { get; }

    /// <summary>The first row of cells that it touches.</summary>
    public int Bottom { get; }

    /// <summary>Columns of cells that it touches, 1 and up.</summary>
    public int Width { get; }

    /// <summary>Rows of cells that it touches, 1 and up.</summary>
    public int Depth { get; }

    /// <summary>From units of the page, y going down, to cells from the first column and row, y going up.</summary>
    public SKMatrix ToCells()
    {
        var (sine, cosine) = _turn;
        var (a, b, c, d) = (_scale.X * cosine, _scale.X * sine, _scale.Y * sine, -_scale.Y * cosine);
        return new SKMatrix(
            (float)a, (float)b, (float)(_middle.X - Left - (a * _width + b * _height) / 2),
            (float)c, (float)d, (float)(_middle.Y - Bottom - (c * _width + d * _height) / 2),
            0, 0, 1);
    }

    private static (double Sine, double Cosine) Whole(IReadOnlyList<Turn> turns, string name)
    {
        if (turns.Any(turn => turn.About != TurnAxis.Z))
            throw new RefusedException(name, "a turn about X or Y", "turns about Z for what is flat", "Leave the x or y out.");
        return new Turn(TurnAxis.Z, turns.Sum(turn => turn.Degrees) % 360).SineAndCosine;
    }

    // In units along X and Y, after the turn.
    private (double Across, double Along) Turned()
    {
        var (sine, cosine) = (Math.Abs(_turn.Sine), Math.Abs(_turn.Cosine));
        return (_width * cosine + _height * sine, _width * sine + _height * cosine);
    }

    private double UnitMm(Drawing page, ShapeOptions options, int margin, double across, double along)
    {
        var (pitch, fill) = (options.Pitch, options.Fill);
        if (options.Height is { } height && page.Capital is { } capital)
            return (height.ToCells(pitch.Y) - margin) * pitch.Y / capital;
        if (options.Size is { } size)
        {
            var longest = Math.Max(_width, _height);
            var step = _width >= _height ? pitch.X : pitch.Y;
            return (size.ToCells(step) - margin) * step / longest;
        }
        var (x, y) = options.Place.InCells(fill.X, fill.Y, options); // what is left of the grid from there on is filled
        return page.UnitMm ?? Math.Min(Room(fill.X - x) * pitch.X / across, Room(fill.Y - y) * pitch.Y / along);

        double Room(double cells) => Math.Max(1, cells - margin);
    }

    private static void Check(double x, double y, string name, Grid limit)
    {
        if (!(x <= limit.X + Slack && y <= limit.Y + Slack))
            throw new RefusedException(name, FormattableString.Invariant($"a drawing that reaches to {x:0.#} x {y:0.#} cells"),
                $"up to {limit.X} x {limit.Y} cells", "Give a smaller size or another place, or take a larger machine.");
    }

    private static int CellsTo(double end) => Math.Max(1, (int)Math.Ceiling(end - Slack));
}

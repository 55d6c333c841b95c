namespace Bridge.Layouts;

/// <summary>Bresenham's algorithm (IBM Systems Journal 4(1), 1965) in registers: which axes step next on the way to the target.</summary>
internal sealed class ControllerLine
{
    private readonly Netlist _net;
    private readonly int[] _discriminant;
    private readonly int[] _straight;
    private readonly int[] _diagonal;
    private readonly int[] _left;
    private readonly int[] _alongX;
    private readonly int[][] _first;

    public ControllerLine(Netlist net, ControllerAxis x, ControllerAxis y)
    {
        _net = net;
        net.Section = "line";
        var width = Math.Max(x.Position.Length, y.Position.Length);
        (_discriminant, _straight, _diagonal) = (net.Register(width + 2), net.Register(width + 2), net.Register(width + 2));
        (_left, _alongX) = (net.Register(width), net.Register(1));
        var (dx, dy) = (Distance(x, width), Distance(y, width));
        var alongX = net.Not(net.IsGreater(dy, dx));
        var (major, minor) = (net.Select(alongX, dx, dy), net.Select(alongX, dy, dx));
        var (twice, longer) = (net.Wide([net.Zero, .. minor], width + 2), net.Wide(major, width + 2));
        _first = [net.Subtract(twice, longer), twice, net.Subtract(twice, [net.Zero, .. longer[..^1]]), major, [alongX]];
        IsThere = net.IsZero(_left);
        var both = net.Not(_discriminant[^1]);
        StepX = net.Or(_alongX[0], both);
        StepY = net.Or(net.Not(_alongX[0]), both);
    }

    /// <summary>1 where no cell is left.</summary>
    public int IsThere { get; }

    /// <summary>1 where the next cell lies further along X.</summary>
    public int StepX { get; }

    /// <summary>1 where the next cell lies further along Y.</summary>
    public int StepY { get; }

    /// <summary>Says when a line begins, and when it goes to its next cell.</summary>
    public void Feed(int take, int step)
    {
        _net.Section = "line";
        var grown = _net.Add(_discriminant, _net.Select(_discriminant[^1], _straight, _diagonal), _net.Zero);
        _net.Feed(_discriminant, _net.Select(take, _first[0], _net.Select(step, grown, _discriminant)));
        _net.Feed(_straight, _net.Select(take, _first[1], _straight));
        _net.Feed(_diagonal, _net.Select(take, _first[2], _diagonal));
        _net.Feed(_left, _net.Select(take, _first[3], _net.Select(step, _net.Decrement(_left), _left)));
        _net.Feed(_alongX, _net.Select(take, _first[4], _alongX));
    }

    private int[] Distance(ControllerAxis axis, int width)
    {
        var falls = _net.IsGreater(axis.Position, axis.Next);
        return _net.Wide(_net.Select(falls, _net.Subtract(axis.Position, axis.Next), _net.Subtract(axis.Next, axis.Position)), width);
    }
}

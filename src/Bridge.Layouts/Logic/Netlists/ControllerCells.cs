namespace Bridge.Layouts;

/// <summary>The counters of a row or rectangle: cells left in the present row, rows left, and whether the present row runs back.</summary>
internal sealed class ControllerCells
{
    public ControllerCells(Netlist net, DecoderNetlist decoder, int take, int work)
    {
        net.Section = "cell counters";
        var side = Math.Max(decoder.WidthOf(LayoutRole.Size), Math.Max(decoder.WidthOf(LayoutRole.SizeX), decoder.WidthOf(LayoutRole.SizeY)));
        var width = Math.Max(1, Math.Max(side, decoder.WidthOf(LayoutRole.Count)));
        var (cells, rows, back) = (net.Register(width), net.Register(Math.Max(1, side)), net.Register(1));
        var (fill, alongY) = (decoder["fill"], net.And(decoder["fill"], decoder["along_y"]));
        var square = decoder.Number(LayoutRole.Size, width);
        var sizeX = net.Or(decoder.Number(LayoutRole.SizeX, width), square);
        var sizeY = net.Or(decoder.Number(LayoutRole.SizeY, width), square);
        var row = net.Select(fill, net.Select(alongY, sizeY, sizeX), decoder.Number(LayoutRole.Count, width));
        var across = net.Gate(fill, net.Select(alongY, sizeX, sizeY));

        var hasCell = net.Or(cells);
        var hasRow = net.Or(rows);
        var turns = net.And(work, net.Not(hasCell), hasRow);
        IsLast = net.Not(net.Or(hasCell, hasRow));
        net.Feed(cells, net.Select(net.Or(take, turns), row, net.Select(net.And(work, hasCell), net.Decrement(cells), cells)));
        net.Feed(rows, net.Select(take, net.Wide(across, rows.Length), net.Select(turns, net.Decrement(rows), rows)));
        net.Feed(back, [net.And(net.Not(take), net.Xor(back[0], turns))]);

        var alongX = net.And(fill, net.Not(alongY));
        StepX = net.Or(net.And(hasCell, net.Select(fill, alongX, decoder["move_x"])), net.And(turns, alongY));
        StepY = net.Or(net.And(hasCell, net.Select(fill, alongY, decoder["move_y"])), net.And(turns, alongX));
        DownX = net.Xor(decoder["falls_x"], net.And(back[0], alongX));
        DownY = net.Xor(decoder["falls_y"], net.And(back[0], alongY));
    }

    /// <summary>1 where the present cell is the last.</summary>
    public int IsLast { get; }

    /// <summary>1 where the next cell lies further along X.</summary>
    public int StepX { get; }

    /// <summary>1 where the next cell lies further along Y.</summary>
    public int StepY { get; }

    /// <summary>1 where X falls there.</summary>
    public int DownX { get; }

    /// <summary>1 where Y falls there.</summary>
    public int DownY { get; }
}

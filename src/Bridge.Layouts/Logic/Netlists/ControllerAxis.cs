namespace Bridge.Layouts;

/// <summary>One axis of the controller: its position register, which counts up and down, the register of its target, and their comparator.</summary>
internal sealed class ControllerAxis
{
    private readonly Netlist _net;
    private readonly DecoderNetlist _decoder;
    private readonly Layout _layout;
    private readonly (LayoutRole Place, LayoutRole Sign, string Move, string Falls) _names;

    public ControllerAxis(Netlist net, DecoderNetlist decoder, Layout layout, bool isX)
    {
        (_net, _decoder, _layout) = (net, decoder, layout);
        _names = isX ? (LayoutRole.X, LayoutRole.SignX, "move_x", "falls_x") : (LayoutRole.Y, LayoutRole.SignY, "move_y", "falls_y");
        var positions = isX ? layout.PositionsX : layout.PositionsY;
        var width = Math.Max(1, System.Numerics.BitOperations.Log2((uint)Math.Max(1, positions - 1)) + 1);
        net.Section = "position registers";
        Position = net.Register(width);
        Target = net.Register(width);
        net.Section = "comparator";
        Next = TargetOf(width);
        IsThere = net.AreEqual(Position, Target);
        IsBelow = net.IsGreater(Target, Position);
    }

    public int[] Position { get; }

    public int[] Target { get; }

    /// <summary>The target that the present record names.</summary>
    public int[] Next { get; }

    /// <summary>1 where the position is the target.</summary>
    public int IsThere { get; }

    /// <summary>1 where the position lies below the target.</summary>
    public int IsBelow { get; }

    /// <summary>1 where the record's heading or rectangle goes along this axis.</summary>
    public int Moves => _decoder[_names.Move];

    /// <summary>1 where it falls.</summary>
    public int Falls => _decoder[_names.Falls];

    /// <summary>Says when the target is taken, when and which way the position counts, and when it becomes 0.</summary>
    public void Feed(int take, int step, int down, int reset)
    {
        _net.Section = "position registers";
        _net.Feed(Target, _net.Select(take, Next, Target));
        // Up adds one, down adds all ones.
        var count = _net.Add(Position, _net.Gate(down, _net.Constant(-1, Position.Length)), _net.Not(down));
        _net.Feed(Position, _net.Gate(_net.Not(reset), _net.Select(step, count, Position)));
    }

    // By the present record: (0, 0), a place, a distance from here, or where it stands.
    private int[] TargetOf(int width)
    {
        var number = _decoder.Number(_names.Place, width);
        if (!_layout.IsRelative)
            return Stepped(_net.Select(_decoder.Has(_names.Place), number, _net.Gate(_net.Not(_decoder["base"]), Position)));
        var down = _net.And(_decoder.Has(_names.Sign, verb => LayoutNumbers.HasSign(verb, _names.Sign)), _decoder.Number(_names.Sign, 1)[0]);
        var moved = _net.Add(Position, [.. number.Select(bit => _net.Xor(bit, down))], down);
        return Stepped(_net.Gate(_net.Not(_decoder["base"]), moved));
    }

    // A step goes so many cells along its heading.
    private int[] Stepped(int[] place)
    {
        if (!_layout.Doing(LayoutAct.Step).Any())
            return place;
        var cells = _net.Increment(_decoder.Number(LayoutRole.Count, place.Length));
        var far = _net.Gate(_net.And(_decoder["step"], Moves), cells);
        var down = _net.And(_decoder["step"], Falls);
        return _net.Add(place, [.. far.Select(bit => _net.Xor(bit, down))], down);
    }
}

namespace Bridge.Layouts;

/// <summary>The sequencer's states, a flip-flop for each but the first, and what leads from one to the next.</summary>
internal sealed class ControllerStates
{
    private readonly Netlist _net;
    private readonly int[] _state;
    private readonly int[] _ended;

    public ControllerStates(Netlist net)
    {
        _net = net;
        net.Section = "sequencer";
        _state = net.Register(4);
        _ended = net.Register(2);
        Fetch = net.Not(net.Or([.. _state, .. _ended]));
    }

    /// <summary>A record is looked at.</summary>
    public int Fetch { get; }

    /// <summary>The heads move idle to the target.</summary>
    public int Move => _state[0];

    /// <summary>A cell of a row or rectangle is worked.</summary>
    public int Work => _state[1];

    /// <summary>A line goes to its next cell.</summary>
    public int Line => _state[2];

    /// <summary>A cell of a line is worked.</summary>
    public int LineCell => _state[3];

    /// <summary>The job is complete.</summary>
    public int Done => _ended[0];

    /// <summary>A record was no verb's.</summary>
    public int Fault => _ended[1];

    /// <summary>Says when each state is next; the two ends stay.</summary>
    public void Feed(int move, int work, int line, int lineCell, int done, int fault, int reset)
    {
        _net.Section = "sequencer";
        var run = _net.Not(reset);
        _net.Feed(_state, [.. new[] { move, work, line, lineCell }.Select(next => _net.And(next, run))]);
        _net.Feed(_ended, [_net.And(_net.Or(Done, done), run), _net.And(_net.Or(Fault, fault), run)]);
    }
}

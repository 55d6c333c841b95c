namespace Bridge.Layouts;

/// <summary>Which record is read: the next one, or with a repeat one further back, as long as rounds are left.</summary>
internal sealed class ControllerAddress(Netlist net, DecoderNetlist decoder, int bits)
{
    /// <summary>Says when it goes on, and when a repeat is met; gives the address.</summary>
    public int[] Feed(int next, int repeat, int reset)
    {
        net.Section = "repeat counter";
        var address = net.Register(bits);
        var width = Math.Max(1, decoder.WidthOf(LayoutRole.Times));
        var (rounds, isWithin) = (net.Register(width), net.Register(1));
        var ends = net.And(isWithin[0], net.IsZero(rounds));
        var jumps = net.And(repeat, net.Not(ends));
        var run = net.Not(reset);
        net.Feed(rounds, net.Select(net.And(repeat, net.Not(isWithin[0])), decoder.Number(LayoutRole.Times, width),
            net.Select(jumps, net.Decrement(rounds), rounds)));
        net.Feed(isWithin, [net.And(run, net.Select(repeat, net.Not(ends), isWithin[0]))]);

        net.Section = "address";
        var back = net.Subtract(address, net.Increment(decoder.Number(LayoutRole.Reach, bits)));
        var on = net.Select(net.Or(next, net.And(repeat, ends)), net.Increment(address), address);
        net.Feed(address, net.Gate(run, net.Select(jumps, back, on)));
        return address;
    }
}

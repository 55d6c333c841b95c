namespace Bridge.Layouts;

/// <summary>
/// The whole controller of a layout in gates: decoder, position registers, comparators, repeat counter and sequencer. It reads the record at its address
/// and steps a cell a clock. It watches neither grid nor overprint: the proof does that before.
/// </summary>
public static class ControllerNetlist
{
    private const int AddressBits = 16;
    private const int LayerBits = 12;

    /// <summary>
    /// Builds it. In: reset; go_on, which ends a wait; record, the bits at the address, the lowest first. Out: address in records, x, y, layer, head,
    /// work (1 in each clock in which the cell at x, y is worked), waiting, done, fault, the motors' step_x, down_x, step_y, down_y, and each control
    /// line as line_NAME.
    /// </summary>
    /// <exception cref="Jobs.RefusedException">The opcode has more than 12 bits.</exception>
    public static Netlist Build(ControlLines lines)
    {
        var (net, layout) = (new Netlist(), lines.Layout);
        var (reset, goOn) = (net.Input("reset", 1)[0], net.Input("go_on", 1)[0]);
        var decoder = new DecoderNetlist(net, lines, net.Input("record", 8 * layout.RecordBytes));
        var state = new ControllerStates(net);
        var (x, y) = (new ControllerAxis(net, decoder, layout, isX: true), new ControllerAxis(net, decoder, layout, isX: false));
        var hasLine = layout.Doing(LayoutAct.Line).Any();
        var line = hasLine ? new ControllerLine(net, x, y) : null;

        net.Section = "sequencer";
        var isFault = net.And(state.Fetch, decoder.Fault);
        var good = net.And(state.Fetch, net.Not(decoder.Fault));
        var isEnd = net.And(good, decoder["end"]);
        var isRepeat = net.And(good, decoder["repeat"]);
        var acts = net.And(good, net.Not(decoder["end"]), net.Not(decoder["repeat"]), net.Or(net.Not(decoder["wait"]), goOn));
        var moves = net.Or(layout.Verbs.Where(verb =>
            verb.Act is not (LayoutAct.End or LayoutAct.Again or LayoutAct.Wait or LayoutAct.Hold or LayoutAct.Rise or LayoutAct.Head))
            .Select(verb => decoder[$"is_{verb.Name}"]));
        var starts = net.And(acts, moves);
        var isThere = net.And(state.Move, x.IsThere, y.IsThere);

        var cells = new ControllerCells(net, decoder, starts, state.Work);
        var worked = net.And(state.Work, cells.IsLast);
        var lineEnds = net.And(state.Line, line?.IsThere ?? net.Zero);
        var lineSteps = net.And(state.Line, net.Not(line?.IsThere ?? net.Zero));
        state.Feed(
            net.Or(net.And(starts, net.Not(decoder["line"])), net.And(state.Move, net.Not(isThere))),
            net.Or(net.And(isThere, decoder["work"]), net.And(state.Work, net.Not(cells.IsLast))),
            net.Or(net.And(starts, decoder["line"]), state.LineCell), lineSteps, isEnd, isFault, reset);

        var toward = net.And(state.Move, net.Not(isThere));
        var stepX = net.Or(net.And(toward, net.Not(x.IsThere)), net.And(state.Work, cells.StepX), net.And(lineSteps, line?.StepX ?? net.Zero));
        var stepY = net.Or(net.And(toward, net.Not(y.IsThere)), net.And(state.Work, cells.StepY), net.And(lineSteps, line?.StepY ?? net.Zero));
        var (downX, downY) = (net.Select(state.Work, cells.DownX, net.Not(x.IsBelow)), net.Select(state.Work, cells.DownY, net.Not(y.IsBelow)));
        x.Feed(starts, stepX, downX, reset);
        y.Feed(starts, stepY, downY, reset);
        line?.Feed(starts, lineSteps);

        var next = net.Or(net.And(acts, net.Not(moves)), net.And(isThere, net.Not(decoder["work"])), worked, lineEnds);
        var address = new ControllerAddress(net, decoder, AddressBits).Feed(next, isRepeat, reset);
        var (layer, head) = LayerAndHead(net, decoder, acts, reset);

        net.Output("address", address);
        net.Output("x", x.Position);
        net.Output("y", y.Position);
        net.Output("layer", layer);
        net.Output("head", head);
        net.Output("work", net.Or(state.Work, state.LineCell));
        net.Output("waiting", net.And(good, decoder["wait"]));
        if (decoder.WidthOf(LayoutRole.Tenths) is > 0 and var width)
            net.Output("tenths", decoder.Number(LayoutRole.Tenths, width));
        net.Output("done", state.Done);
        net.Output("fault", state.Fault);
        net.Output("step_x", stepX);
        net.Output("down_x", downX);
        net.Output("step_y", stepY);
        net.Output("down_y", downY);
        foreach (var (name, wire) in decoder.Lines)
            net.Output($"line_{name}", wire);
        return net;
    }

    private static (int[] Layer, int[] Head) LayerAndHead(Netlist net, DecoderNetlist decoder, int acts, int reset)
    {
        net.Section = "layer and head";
        var (layer, head) = (net.Register(LayerBits), net.Register(1));
        var run = net.Not(reset);
        net.Feed(layer, net.Gate(run, net.Select(net.And(acts, decoder["rise"]), net.Increment(layer), layer)));
        net.Feed(head, net.Gate(run, net.Select(net.And(acts, decoder["set_head"]), [decoder["head"]], head)));
        return (layer, head);
    }
}

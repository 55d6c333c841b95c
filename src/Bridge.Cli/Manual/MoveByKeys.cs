using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>A referenced machine moved by the keys of a terminal: while a key is held, or a cell at each press.</summary>
internal sealed class MoveByKeys(Report report, MachineHand hand, DeviceDialogue device, HandRun run, HandKeys keys)
{
    private static readonly Dictionary<ConsoleKey, (AxisName Axis, bool IsUp)> Ways = new()
    {
        [ConsoleKey.RightArrow] = (AxisName.X, true),
        [ConsoleKey.LeftArrow] = (AxisName.X, false),
        [ConsoleKey.UpArrow] = (AxisName.Y, true),
        [ConsoleKey.DownArrow] = (AxisName.Y, false),
        [ConsoleKey.PageUp] = (AxisName.Z, true),
        [ConsoleKey.PageDown] = (AxisName.Z, false),
    };

    private bool _byCells;

    /// <summary>Until the person ends it; false where the machine could not go on.</summary>
    public async Task<bool> RunAsync()
    {
        report.Line("Keys: the arrows move X and Y" + (hand.Machine.Z is null ? "" : ", Page Up and Page Down Z") + ", slowly, for as long as one is held.");
        report.Line("      Tab changes to a cell at each press and back; a, b choose the head; Enter ends.");
        Tell();
        while (await keys.NextAsync(GoesOn, device.PassAsync).ConfigureAwait(false) is { } pressed && pressed.Key != ConsoleKey.Enter)
            await ObeyAsync(pressed.Key).ConfigureAwait(false);
        return hand.Trouble is null;
    }

    private bool GoesOn() => hand.Trouble is null && !hand.IsInterrupted && hand.Status!.Value.State is not Wire.MachineState.Aborted;

    private Task ObeyAsync(ConsoleKey key)
    {
        if (Ways.TryGetValue(key, out var way))
            return _byCells ? StepAsync(way.Axis, way.IsUp ? 1 : -1) : JogAsync(key, way.Axis, way.IsUp);
        switch (key)
        {
            case ConsoleKey.Tab:
                _byCells = !_byCells;
                Tell();
                break;
            case ConsoleKey.A:
                return GoAsync(run.At with { Head = Head.A });
            case ConsoleKey.B when hand.Machine.B is not null:
                return GoAsync(run.At with { Head = Head.B });
        }

        return Task.CompletedTask;
    }

    private async Task JogAsync(ConsoleKey key, AxisName axis, bool isUp)
    {
        if (axis == AxisName.Z && hand.Machine.Z is null)
            return;
        await hand.JogAsync(axis, isUp, () => keys.IsHeld(key)).ConfigureAwait(false);
    }

    // One press too many at the grid's edge is no mistake.
    private Task StepAsync(AxisName axis, int way)
    {
        var (cell, layer) = (run.At.Cell, run.At.Layer);
        var to = axis switch
        {
            AxisName.X => run.At with { Cell = cell with { X = cell.X + way } },
            AxisName.Y => run.At with { Cell = cell with { Y = cell.Y + way } },
            _ => run.At with { Layer = layer + way },
        };
        if (hand.Machine.Grid.Holds(to.Cell) && to.Layer >= 0 && to.Layer < hand.Machine.Grid.Layers && to.Layer >= layer)
            return GoAsync(to);
        report.Line(to.Layer < layer ? "Cells go up only: end here and begin anew to come down, or hold Page Down." : "That is the edge of the grid.");
        return Task.CompletedTask;
    }

    private async Task GoAsync(Position to)
    {
        var isThere = await run.GoAsync(to).ConfigureAwait(false);
        keys.Forget(); // those of a key that repeated meanwhile would each be a move of their own, long after it was let go
        if (isThere)
            Tell();
    }

    private void Tell()
    {
        var where = $"cell ({run.At.Cell.X}, {run.At.Cell.Y}), layer {run.At.Layer}, head {(run.At.Head == Head.A ? "a" : "b")}";
        report.Line(_byCells ? $"A cell at each press. At {where}." : $"Moves while a key is held. The last cell was {where}.");
    }
}

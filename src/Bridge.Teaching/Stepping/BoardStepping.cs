using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Teaching;

/// <summary>A board that does what is stepped, record by record as one run by hand. What it has worked stays worked.</summary>
public sealed class BoardStepping : ISteppedDevice
{
    private readonly MachineHand _hand;
    private readonly DeviceDialogue _device;
    private readonly Func<ushort> _newRunId;
    private readonly WorkedCells _worked;
    private HandRun _run;

    /// <param name="hand">The machine, referenced.</param>
    /// <param name="device">The dialogue that the hand has with it.</param>
    /// <param name="newRunId">Gives a number on the wire for each run, 1 to 65535.</param>
    public BoardStepping(MachineHand hand, DeviceDialogue device, Func<ushort> newRunId)
    {
        (_hand, _device, _newRunId, _worked) = (hand, device, newRunId, new WorkedCells(hand.Machine.Grid));
        _run = new HandRun(hand, device, newRunId());
    }

    /// <inheritdoc/>
    public string? Trouble => _hand.Trouble ?? (_hand.IsInterrupted ? "It was stopped." : null);

    /// <inheritdoc/>
    public string Told => _device.Status is { } status
        ? $"{status.State}: ({status.X}, {status.Y}) on layer {status.Layer}, head {"ab"[status.Head & 1]}; "
            + $"{ExplanationWords.Count(_worked.Counts.A + _worked.Counts.B, "cell")} worked"
        : "nothing was heard of it";

    private Machine Machine => _hand.Machine;

    /// <inheritdoc/>
    public async Task<bool> FollowAsync(StepDone done, long ticks)
    {
        foreach (var (record, to, works) in DeviceSteps.Of(done, Machine, _worked))
        {
            if (!await _run.DoAsync(record, to).ConfigureAwait(false))
                return false;
            foreach (var cell in works)
                _worked.Add(cell, to.Layer, to.Head);
        }

        return true;
    }

    /// <inheritdoc/>
    public IReadOnlyList<string> PlanBack(Position to)
    {
        var (from, lines) = (_run.At, new List<string>());
        if (to.Layer < from.Layer)
        {
            RefuseDescent(to);
            lines.Add("The machine moves as when it looks for its zero: each axis to its endstop, then home, Z coming down.");
            lines.Add($"Then it goes up to layer {to.Layer} over (0, 0), and across to {to.Cell} with head {RecordWords.Name(to.Head)}.");
        }
        else
        {
            lines.Add($"The carriage moves without working from {from.Cell} to {to.Cell} on layer {to.Layer}, with head {RecordWords.Name(to.Head)}.");
        }

        lines.Add("What is worked stays worked. Stepped forward again, " + (Machine.MayOverprint
            ? "the cells are worked a second time."
            : "the head passes over the cells that are there without working them."));
        return lines;
    }

    /// <inheritdoc/>
    public async Task<bool> BackAsync(Position to, long ticks)
    {
        if (to.Layer < _run.At.Layer)
        {
            if (!await _hand.StopAsync().ConfigureAwait(false) || !await _hand.ReferenceAsync().ConfigureAwait(false))
                return false;
            _run = new HandRun(_hand, _device, _newRunId());
        }

        return await _run.GoAsync(to).ConfigureAwait(false);
    }

    // A head that goes about on a layer meets what stands above it.
    private void RefuseDescent(Position to)
    {
        if (Machine.MayOverprint)
            return;
        if (_worked.Layers.Any(layer => layer > to.Layer))
            throw Refused($"back to layer {to.Layer}", "cells that stand higher than that layer: the head would run into them");
        if (DescentCheck.FirstInTheWay(Machine, _worked) is { } built)
            throw Refused($"back to layer {to.Layer}", $"cell {built.Cell} on layer {built.Layer}, where the head comes down");
    }

    private static RefusedException Refused(string place, string found) => new(
        place, found, "a way down with nothing built on it", "Nothing was moved. Go back on the present layer only, or end, take the work out and begin anew.");
}

using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Runs;

namespace Bridge.Teaching;

/// <summary>
/// The mock device doing what is stepped, in time that passes at once. It can be brought back truly: another one, as it was there, takes its place.
/// </summary>
public sealed class MockStepping : ISteppedDevice, IDisposable
{
    private readonly Machine _machine;
    private readonly int _seed;
    private readonly List<(Position At, TimeSpan When)> _worked = []; // where the tool really was
    private readonly List<(long Ticks, int Cells)> _marks = [(0, 0)];
    private WorkedCells _there;
    private MockPort? _port;
    private VirtualTime _time = new();
    private TimeSpan _began;  // when the present device was ready, on its own clock
    private TimeSpan _before; // the time that those before it had come to
    private MachineHand? _hand;
    private HandRun? _run;
    private bool _isAsTold = true;

    /// <param name="machine">The machine.</param>
    /// <param name="seed">Decides where its carriage stands at first.</param>
    public MockStepping(Machine machine, int seed) => (_machine, _seed, _there) = (machine, seed, new WorkedCells(machine.Grid));

    /// <inheritdoc/>
    public string? Trouble => _hand?.Trouble;

    /// <inheritdoc/>
    public string Told => $"{At(_run!.At)}; its gantry worked {ExplanationWords.Count(_worked.Count, "cell")}, "
        + (_isAsTold ? "each where the job has it" : "not all where the job has them")
        + FormattableString.Invariant($"; {Elapsed.TotalSeconds:0.0} s");

    private TimeSpan Elapsed => _before + _time.Now - _began;

    /// <summary>Switches it on and references it.</summary>
    public async Task<bool> BeginAsync()
    {
        _port?.Dispose();
        _time = new VirtualTime();
        _port = MockPort.Of(_machine, _time, _seed);
        var dialogue = new DeviceDialogue(_port.Open(), _time);
        _hand = new MachineHand(dialogue, _machine);
        _run = new HandRun(_hand, dialogue, runId: 1);
        if (await _hand.ConnectAsync(token: 1).ConfigureAwait(false) is null || !await _hand.ReferenceAsync().ConfigureAwait(false))
            return false;
        _port.ByHand(device => device.Gantry.CellWorked += at => _worked.Add((at, Elapsed)));
        _began = _time.Now;
        return true;
    }

    /// <inheritdoc/>
    public async Task<bool> FollowAsync(StepDone done, long ticks)
    {
        foreach (var (record, to, works) in DeviceSteps.Of(done, _machine, _there))
        {
            var before = _worked.Count;
            if (!await _run!.DoAsync(record, to).ConfigureAwait(false))
                return false;
            _isAsTold &= _worked.Skip(before).Select(cell => cell.At).SequenceEqual(works.Select(cell => to with { Cell = cell }));
            foreach (var (at, _) in _worked.Skip(before))
                _there.Add(at.Cell, at.Layer, at.Head);
        }

        _marks.Add((ticks, _worked.Count));
        return true;
    }

    /// <inheritdoc/>
    public IReadOnlyList<string> PlanBack(Position to) => [];

    /// <inheritdoc/>
    public async Task<bool> BackAsync(Position to, long ticks)
    {
        var last = _marks.FindLastIndex(mark => mark.Ticks <= ticks);
        var cells = (int)Math.Min(_worked.Count, _marks[last].Cells + (ticks - _marks[last].Ticks)); // within a record each smallest step is a cell
        _marks.RemoveRange(last + 1, _marks.Count - last - 1);
        _worked.RemoveRange(cells, _worked.Count - cells);
        _marks.Add((ticks, cells));
        _there = new WorkedCells(_machine.Grid);
        foreach (var (at, _) in _worked)
            _there.Add(at.Cell, at.Layer, at.Head);
        if (!await BeginAsync().ConfigureAwait(false) || !await _run!.GoAsync(to).ConfigureAwait(false))
            return false;
        (_began, _before) = (_time.Now, cells == 0 ? TimeSpan.Zero : _worked[^1].When);
        return true;
    }

    /// <inheritdoc/>
    public void Dispose() => _port?.Dispose();

    private static string At(Position at) => $"{at.Cell} on layer {at.Layer}, head {RecordWords.Name(at.Head)}";
}

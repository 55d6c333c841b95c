using System.Device.Gpio;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Runs;
using Bridge.Runs.Tests;
using Bridge.Wire;

namespace Bridge.Station.Tests;

/// <summary>The station beside real runs on the mock device, in real time, on pins without hardware.</summary>
public sealed class OperatorStationTests : IDisposable
{
    private const int EStop = 17, Hold = 27, Start = 22, Green = 5, Blue = 6, Red = 7;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30); // far beyond what anything takes here
    private static readonly StationWiring Wiring = new(null, new ContactPins(EStop, Hold, Start),
        new Dictionary<LampColor, int> { [LampColor.Green] = Green, [LampColor.Blue] = Blue, [LampColor.Red] = Red },
        new DisplayPins(20, 4, 8, 9, [10, 11, 12, 13]));

    // So quick that a run is ready in a moment; a computer that is busy with other tests is not silent.
    private static readonly Machine Quick = Examples.Plotter with
    {
        X = Brisk(Examples.Plotter.X),
        Y = Brisk(Examples.Plotter.Y),
        TimeOuts = Examples.Plotter.TimeOuts with { LineSilence = TimeSpan.FromSeconds(10) },
    };

    private static readonly JobFile LongJob = Examples.Job(Quick,
        [.. Enumerable.Repeat(Record.Patch(Head.A, new Cell(1, 1), 8, 8, PatchWay.AlongX), 60), Record.End]);

    private readonly SimulatedPins _pins = new();
    private readonly DisplayReader _display;
    private readonly List<string> _told = [];
    private readonly MockPort _port = new(new MockDevice(new Gantry(Quick, seed: 1)), TimeProvider.System, Quick.Baud);

    public OperatorStationTests()
    {
        _display = new DisplayReader(_pins, registerSelect: 8, enable: 9, data: [10, 11, 12, 13]);
        _pins.Set(EStop, isClosed: true);
        _pins.Set(Hold, isClosed: true);
    }

    public void Dispose()
    {
        _port.Dispose();
        _pins.Dispose();
    }

    [Fact]
    public async Task The_start_button_starts_holds_go_on_and_the_estop_contact_aborts()
    {
        using var station = Open();
        var (run, end) = Run(station);
        await Until(() => run().AwaitsStart && IsFlashing(Blue));
        await Until(() => _display.Text.StartsWith("Idle                Press start         ", StringComparison.Ordinal));
        await _pins.PressAsync(Start);
        await Until(() => run().State == MachineState.Execute && _pins[Green] == PinValue.High);
        _pins.Set(Hold, isClosed: false);
        await Until(() => run().State == MachineState.Held);
        await _pins.PressAsync(Start); // under an open hold contact
        Assert.Equal(MachineState.Held, run().State);
        _pins.Set(Hold, isClosed: true);
        await _pins.PressAsync(Start);
        await Until(() => run().State == MachineState.Execute);
        _pins.Set(EStop, isClosed: false);
        Assert.Equal(RunOutcome.Aborted, (await end.WaitAsync(Patience)).Outcome);
        await Until(() => IsFlashing(Red) && _display.Text.StartsWith("E-STOP IS OPEN", StringComparison.Ordinal));
        Assert.Equal(
            ["Ready: the start button at the station starts it.", "Start at the station.", "Hold at the station.", "Start at the station: the run goes on.",
                "The station's e-stop contact is open: asked the machine to stop at once, motors off."],
            _told);
    }

    [Fact]
    public async Task A_hold_contact_that_is_open_from_the_beginning_keeps_the_machine_from_moving_until_start_takes_that_back()
    {
        _pins.Set(Hold, isClosed: false);
        using var station = Open();
        var (run, end) = Run(station);
        await Until(() => run().IsHeldBack && IsFlashing(Blue));
        await Until(() => _display.Text.Contains("Start goes on", StringComparison.Ordinal));
        await _pins.PressAsync(Start); // under an open hold contact
        Assert.Equal((MachineState.Aborted, true), (run().State, run().IsHeldBack)); // as it was before the run
        _pins.Set(Hold, isClosed: true);
        await _pins.PressAsync(Start);
        await Until(() => run().AwaitsStart);
        await _pins.PressAsync(Start);
        await Until(() => run().State == MachineState.Execute);
        Assert.Equal(
            ["Hold at the station.", "The run waits, since a hold is asked for: the start button at the station takes that back.",
                "Start at the station: the run goes on.", "Ready: the start button at the station starts it.", "Start at the station."],
            _told);
        _pins.Set(EStop, isClosed: false);
        await end.WaitAsync(Patience);
    }

    [Fact]
    public async Task A_contact_that_opens_for_a_moment_only_stops_the_run()
    {
        using var station = Open();
        var (run, end) = Run(station);
        await Until(() => run().AwaitsStart);
        await _pins.PressAsync(Start);
        await Until(() => run().State == MachineState.Execute);
        _pins.Set(EStop, isClosed: false);
        _pins.Set(EStop, isClosed: true);
        Assert.Equal(RunOutcome.Aborted, (await end.WaitAsync(Patience)).Outcome);
    }

    [Fact]
    public async Task Pins_that_tell_no_changes_and_then_cannot_be_read_stop_the_run()
    {
        using var deaf = new SimulatedPins { TellsChanges = false };
        deaf.Set(EStop, isClosed: true);
        deaf.Set(Hold, isClosed: true);
        using var station = OperatorStation.Open("desk.toml", Wiring, _ => new GpioController(deaf), TimeProvider.System, _told.Add);
        var (run, end) = Run(station);
        await Until(() => run().AwaitsStart);
        deaf.Trouble = new IOException("no answer on the bus");
        Assert.Equal(RunOutcome.Aborted, (await end.WaitAsync(Patience)).Outcome);
        Assert.Contains("The station's contacts cannot be read (no answer on the bus): asked the machine to stop at once, motors off.", _told);
    }

    [Fact]
    public void A_station_with_an_open_estop_contact_or_without_pins_is_refused_and_lets_go_of_its_pins()
    {
        _pins.Set(EStop, isClosed: false);
        Assert.Equal("desk.toml, contacts.estop", Refused(() => Open()).Place);
        Assert.All(Wiring.Pins, pin => Assert.False(_pins.IsOpen(pin)));
        _pins.Trouble = new IOException("no answer on the bus");
        Assert.Contains("no answer on the bus", Refused(() => Open()).Found);
        Assert.Contains("no pins here", Refused(() => OperatorStation.Open(
            "desk.toml", Wiring, _ => throw new PlatformNotSupportedException("no pins here"), TimeProvider.System, _told.Add)).Found);
    }

    [Fact]
    public void Disposed_of_its_lamps_are_dark_and_its_pins_free()
    {
        using (var station = Open())
            Assert.All(Wiring.Pins, pin => Assert.True(_pins.IsOpen(pin)));
        Assert.All(Wiring.Pins, pin => Assert.False(_pins.IsOpen(pin)));
        Assert.Equal(PinValue.Low, _pins[Blue]);
    }

    private OperatorStation Open() => OperatorStation.Open("desk.toml", Wiring, _ => new GpioController(_pins), TimeProvider.System, _told.Add);

    private (Func<RunProgress> Progress, Task<RunEnd> End) Run(OperatorStation station)
    {
        var seen = new Seen(station);
        var run = new RunController(ProvedJob.Of(LongJob, Quick), new RunSettings { RunId = 7, Token = 0x1234, Device = "mock", AwaitsStart = true },
            new MemoryJournal(), seen);
        station.Operate(run.Request);
        return (() => seen.Last, Task.Run(() => RunLoop.RunAsync(run, _port.Open(), TimeProvider.System)));
    }

    private bool IsFlashing(int pin) => _pins[pin] == PinValue.High && ((int[])[Green, Blue, Red]).Count(other => _pins[other] == PinValue.High) == 1;

    private static async Task Until(Func<bool> holds)
    {
        var since = TimeProvider.System.GetTimestamp();
        while (!holds())
        {
            Assert.True(TimeProvider.System.GetElapsedTime(since) < Patience, "It did not come about.");
            await Task.Delay(5);
        }
    }

    private static Refusal Refused(Action open) => Assert.Single(Assert.Throws<RefusedException>(open).Refusals);

    private static Axis Brisk(Axis axis) => axis with { TopSpeedMmS = 200, AccelMmS2 = 20_000, ReferenceSpeedMmS = 100, EndstopGapMm = 0.5, StepsPerMm = 20 };

    private sealed class Seen(IRunWatcher station) : IRunWatcher
    {
        private readonly Lock _door = new();
        private RunProgress _last;

        public RunProgress Last
        {
            get
            {
                lock (_door)
                    return _last;
            }
        }

        public void StateChanged(RunProgress progress)
        {
            station.StateChanged(progress);
            Keep(progress);
        }

        public void Progressed(RunProgress progress)
        {
            station.Progressed(progress);
            Keep(progress);
        }

        public void Told(string words)
        {
        }

        private void Keep(RunProgress progress)
        {
            lock (_door)
                _last = progress;
        }
    }
}

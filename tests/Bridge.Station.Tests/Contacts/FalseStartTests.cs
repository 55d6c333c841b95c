using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Station.Tests;

/// <summary>
/// Every order of what may happen to buttons, cable, power and program, up to six events long: nothing starts but by a press that begins while the
/// machine is ready, the e-stop and hold closed, and nothing comes between. What is ready and what counts as a press is judged here from the events alone.
/// </summary>
public class FalseStartTests
{
    private const int Longest = 6;

    private enum Event
    {
        PressStart, ReleaseStart, OpenEStop, CloseEStop, OpenHold, CloseHold, PullCable, PlugCable, PowerOff, PowerOn, EndProgram, StartProgram, HoldMachine,
    }

    private delegate MachineCommand? Rules(TimeSpan now, ContactReading contacts, RunProgress run);

    [Fact]
    public void No_order_of_events_starts_anything_falsely_and_each_right_press_does()
    {
        var (orders, starts, wrong) = TryAll(Longest, () => new OperatorRules().Look);
        Assert.Null(wrong);
        Assert.Equal((long)Math.Pow(Enum.GetValues<Event>().Length, Longest), orders);
        Assert.True(starts > orders / 100, $"Only {starts} of {orders} orders start anything.");
    }

    // Planted defects: they must be found, or the test sees nothing.
    [Fact]
    public void Rules_that_start_by_a_level_or_forget_a_contact_are_caught()
    {
        var pressed = new ContactReading(EStopIsClosed: true, HoldIsClosed: true, StartIsPressed: true);
        Assert.NotNull(TryAll(2, () => (_, contacts, run) => contacts == pressed ? Wanted(run) : null).Wrong);
        Assert.NotNull(TryAll(3, () =>
        {
            var rules = new OperatorRules();
            return (now, contacts, run) => rules.Look(now, contacts with { HoldIsClosed = true }, run);
        }).Wrong);
        Assert.NotNull(TryAll(4, () =>
        {
            var rules = new OperatorRules();
            return (now, contacts, run) => rules.Look(now, contacts, Wanted(run) is null ? run with { AwaitsStart = true } : run);
        }).Wrong);
    }

    private static (long Orders, long Starts, string? Wrong) TryAll(int length, Func<Rules> make)
    {
        var kinds = Enum.GetValues<Event>();
        var order = new Event[length];
        var orders = (long)Math.Pow(kinds.Length, length);
        var starts = 0L;
        for (var number = 0L; number < orders; number++)
        {
            for (var (i, rest) = (0, number); i < length; i++, rest /= kinds.Length)
                order[i] = kinds[rest % kinds.Length];
            var desk = new Desk(make);
            desk.Goes(Event.PlugCable); // as it is: time passes
            foreach (var happens in order)
                if (desk.Goes(happens) is { } wrong)
                    return (number, starts, $"{string.Join(", ", order)}: {wrong}");
            starts += desk.Starts;
        }

        return (orders, starts, null);
    }

    private static MachineCommand? Wanted(RunProgress run) =>
        run.AwaitsStart ? MachineCommand.Start : run.IsHeldBack || run.State == MachineState.Held ? MachineCommand.Unhold : null;

    /// <summary>A machine, its program and its operator's hands; between two events there is time enough for all that follows from one.</summary>
    private sealed class Desk(Func<Rules> make)
    {
        private static readonly TimeSpan Turn = TimeSpan.FromMilliseconds(20);
        private const int TurnsOfAnEvent = 4;

        private bool _pressed, _eStopClosed = true, _holdClosed = true, _cable = true, _power = true;
        private Rules? _rules = make(); // of the program's present run; none while it is ended
        private RunProgress _run = Waiting;
        private TimeSpan _now;
        private bool _mayStart; // by a press that began rightly and has nothing since

        private static RunProgress Waiting => new RunProgress() with { State = MachineState.Idle, AwaitsStart = true };

        public int Starts { get; private set; }

        /// <summary>Lets it happen; says what went wrong, or null.</summary>
        public string? Goes(Event happens)
        {
            _mayStart = happens == Event.PressStart && !_pressed && _rules is not null && _eStopClosed && _holdClosed && Wanted(_run) is not null;
            Happen(happens);
            var starts = 0;
            for (var turn = 0; turn < TurnsOfAnEvent; turn++, _now += Turn)
                switch (_rules?.Invoke(_now, new ContactReading(_eStopClosed, _holdClosed, _pressed), _run))
                {
                    case MachineCommand.Start or MachineCommand.Unhold:
                        starts++;
                        _run = _run.IsHeldBack ? Waiting : new RunProgress() with { State = MachineState.Execute };
                        break;
                    case MachineCommand.Abort:
                        EndRun();
                        break;
                    case MachineCommand.Hold when _run.State == MachineState.Execute:
                        _run = _run with { State = MachineState.Held };
                        break;
                    default:
                        break;
                }
            Starts += starts;
            return starts == (_mayStart ? 1 : 0) ? null : $"{starts} starts at {happens}, {(_mayStart ? "1 was" : "none was")} due";
        }

        private void Happen(Event happens)
        {
            switch (happens)
            {
                case Event.PressStart or Event.ReleaseStart:
                    _pressed = happens == Event.PressStart;
                    break;
                case Event.OpenEStop or Event.CloseEStop:
                    _eStopClosed = happens == Event.CloseEStop;
                    break;
                case Event.OpenHold or Event.CloseHold:
                    _holdClosed = happens == Event.CloseHold;
                    break;
                case Event.PullCable or Event.PlugCable:
                    _cable = happens == Event.PlugCable;
                    break;
                case Event.PowerOff or Event.PowerOn:
                    _power = happens == Event.PowerOn;
                    break;
                case Event.EndProgram:
                    EndRun();
                    break;
                case Event.StartProgram when _rules is null && _cable && _power && _eStopClosed:
                    (_rules, _run) = (make(), Waiting);
                    break;
                case Event.HoldMachine when _run.AwaitsStart:
                    _run = _run with { AwaitsStart = false, IsHeldBack = true };
                    break;
                case Event.HoldMachine when _run.State == MachineState.Execute:
                    _run = _run with { State = MachineState.Held };
                    break;
                default:
                    break;
            }

            if (!_cable || !_power)
                EndRun();
        }

        private void EndRun() => (_rules, _run) = (null, default);
    }
}

using System.Device.Gpio;
using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Station;

/// <summary>
/// The operator's contacts, lamps and display beside a run. Contacts are looked at in a thread of their own, whenever one changes and 500 times in a second;
/// lamps and display in another, since a display is slow. It is no safety function: the e-stop itself cuts the motors' supply.
/// </summary>
public sealed class OperatorStation : IRunWatcher, IDisposable
{
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(2);
    private static readonly TimeSpan Show = TimeSpan.FromMilliseconds(50);

    private readonly StationWiring _wiring;
    private readonly GpioController _pins;
    private readonly Contacts _contacts;
    private readonly Lamps _lamps;
    private readonly CharacterDisplay? _display;
    private readonly TimeProvider _time;
    private readonly Action<string> _tell;
    private readonly long _start;
    private readonly Lock _door = new();
    private readonly ManualResetEvent _over = new(false);
    private readonly List<Thread> _threads = [];
    private RunProgress _progress;
    private volatile bool _eStopIsClosed = true;

    private OperatorStation(StationWiring wiring, GpioController pins, TimeProvider time, Action<string> tell)
    {
        (_wiring, _pins, _time, _tell, _start) = (wiring, pins, time, tell, time.GetTimestamp());
        _contacts = new Contacts(pins, wiring.Contacts);
        _lamps = new Lamps(pins, wiring.Lamps);
        _display = wiring.Display is { } display ? new CharacterDisplay(pins, display) : null;
    }

    private TimeSpan Now => _time.GetElapsedTime(_start);

    private RunProgress Progress
    {
        get
        {
            lock (_door)
                return _progress;
        }
    }

    /// <summary>Opens the pins of a station.</summary>
    /// <param name="name">Its file, for refusals.</param>
    /// <param name="wiring">What is wired to which.</param>
    /// <param name="open">Gives the pins; <see cref="StationPins.Open"/> those of this host or an expander on it.</param>
    /// <param name="time">Real time.</param>
    /// <param name="tell">Where a person is told of trouble; called from any thread.</param>
    /// <exception cref="RefusedException">The pins are not there, or the e-stop's contact is open.</exception>
    public static OperatorStation Open(string name, StationWiring wiring, Func<StationWiring, GpioController> open, TimeProvider time, Action<string> tell)
    {
        try
        {
            var pins = open(wiring);
            try
            {
                var station = new OperatorStation(wiring, pins, time, tell);
                if (station._contacts.Read().EStopIsClosed)
                    return station;
                station.Dispose();
                if (station._contacts.Trouble is { } why)
                    throw new IOException(why);
            }
            catch
            {
                pins.Dispose();
                throw;
            }
        }
        catch (Exception trouble) when (Contacts.IsOfPins(trouble))
        {
            throw new RefusedException(name, $"pins that cannot be used ({trouble.Message.Split('\n')[0].TrimEnd('.')})", "pins that this computer has",
                "Nothing was started. Check the numbers, and whether this program may use them.");
        }

        throw new RefusedException($"{name}, contacts.estop", "an open contact", "a closed one",
            "Nothing was started. Release the e-stop, or look for its cut wire.");
    }

    /// <summary>From here on the contacts ask for what a run does, until this is disposed of.</summary>
    /// <param name="ask">Asks the run, or whatever moves the machine after it, for Start, Hold, Unhold or Abort; called from the station's own thread.</param>
    public void Operate(Action<MachineCommand> ask)
    {
        Begin("Station contacts", () => Watch(ask));
        Begin("Station lamps", ShowSigns);
    }

    /// <inheritdoc/>
    public void StateChanged(RunProgress progress)
    {
        var wasHeldBack = Progress.IsHeldBack;
        Progressed(progress);
        if (progress.AwaitsStart)
            _tell("Ready: the start button at the station starts it.");
        else if (progress.IsHeldBack && !wasHeldBack)
            _tell("The run waits, since a hold is asked for: the start button at the station takes that back.");
    }

    /// <inheritdoc/>
    public void Progressed(RunProgress progress)
    {
        lock (_door)
            _progress = progress;
        if (_threads.Count > 0)
            _contacts.Wake(); // what it may start has changed
    }

    /// <inheritdoc/>
    public void Told(string words)
    {
    }

    /// <summary>Lets go of the pins, with the lamps dark.</summary>
    public void Dispose()
    {
        _over.Set();
        _contacts.Wake();
        foreach (var thread in _threads)
            thread.Join();
        _display?.Dispose();
        _contacts.Dispose();
        _pins.Dispose();
        _over.Dispose();
    }

    private void Begin(string name, Action work)
    {
        var thread = new Thread(() => work()) { IsBackground = true, Name = name, Priority = ThreadPriority.Highest };
        _threads.Add(thread);
        thread.Start();
    }

    private void Watch(Action<MachineCommand> ask)
    {
        Urgency.TryRaise(); // other programs may keep every core busy; without the right to it, contacts are looked at as they let it
        var rules = new OperatorRules();
        while (!_over.WaitOne(0))
        {
            var contacts = _contacts.Read();
            _eStopIsClosed = contacts.EStopIsClosed;
            if (rules.Look(Now, contacts, Progress) is { } asked)
            {
                ask(asked); // before anything is said
                if (!rules.IsAgain)
                    _tell(Words(asked));
            }

            _contacts.Wait(Look);
        }
    }

    private string Words(MachineCommand asked) => asked switch
    {
        MachineCommand.Abort when _contacts.Trouble is { } why =>
            $"The station's contacts cannot be read ({why}): asked the machine to stop at once, motors off.",
        MachineCommand.Abort => "The station's e-stop contact is open: asked the machine to stop at once, motors off.",
        MachineCommand.Hold => "Hold at the station.",
        MachineCommand.Start => "Start at the station.",
        _ => "Start at the station: the run goes on.",
    };

    private void ShowSigns()
    {
        try
        {
            while (!_over.WaitOne(Show))
            {
                var (run, isClosed) = (Progress, _eStopIsClosed);
                _lamps.Show(Lamp.Of(run, isClosed), Now);
                if (_wiring.Display is { } display)
                    _display!.Show(DisplayText.Of(run, isClosed, display.Columns, display.Lines));
            }

            _lamps.Darken();
        }
        catch (Exception trouble) when (Contacts.IsOfPins(trouble))
        {
            _tell($"The station's lamps and display stay as they are ({trouble.Message}). The contacts are looked at all the same.");
        }
    }
}

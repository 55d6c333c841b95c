using Bridge.Runs;
using Bridge.Wire;

namespace Simulation.Tests;

/// <summary>
/// A board with its gantry, a line, a disk and a clock, in which attempts to get a job done meet their faults. Time is the board's own and passes
/// only when a host waits on its line, or with nobody there. All of it follows from a seed.
/// </summary>
internal sealed class World : TimeProvider, IDisposable
{
    /// <summary>The world is looked at this often, in microseconds.</summary>
    public const long Quantum = 500;

    /// <summary>What a turn of the host's loop takes at least, in microseconds.</summary>
    public const long ShortestTurn = 50;

    private readonly Random _random;
    private readonly byte[] _octets = new byte[4096];
    private readonly List<byte> _frame = [];
    private readonly long _delay;
    private readonly bool _resetsWhenOpened;
    private readonly int _longestWrite;
    private SimulatedLine? _line;
    private FaultCounter _faults = FaultCounter.None;
    private int _worked;
    private long _eStopUntil;
    private long _diskFullUntil;
    private long _hostStallsUntil;
    private long _attemptBegan;
    private TimeSpan _timeOfDay;
    private bool _hostDies;

    public World(BoardLibrary library, SimulatedJob job, int seed)
    {
        _random = new Random(seed);
        Job = job;
        Board = new Board(library, job.Machine, _random);
        Watch = new BoardWatch(Board, job);
        Operator = new Operator(Board, Watch.Leave);
        Disk = new SimulatedDisk(_random) { DiesAt = DeathAt };
        _delay = _random.Next(4) switch { 0 => 100, 1 => 500, 2 => 2_000, _ => _random.Next(100, 12_000) };
        _resetsWhenOpened = _random.Next(8) == 0;
        _longestWrite = _random.Next(4) == 0 ? _random.Next(10_000) : 0;
        Board.TurnMicroseconds = _random.Next(4) switch { 0 => _random.Next(100, 640), 1 => _random.Next(640, 2000), _ => 0 };
    }

    public SimulatedJob Job { get; }

    public Board Board { get; }

    public BoardWatch Watch { get; }

    public SimulatedDisk Disk { get; }

    /// <summary>Microseconds since the beginning.</summary>
    public long Now => Board.Now;

    /// <summary>What happened, for a person to read; null where nobody does.</summary>
    public List<string>? Story { get; init; }

    /// <summary>A defect in the host.</summary>
    public Plant Plant { get; init; }

    /// <summary>Whether each fault of the last attempt has struck.</summary>
    public bool AllStruck { get; private set; }

    /// <summary>How often the noise of the lines struck.</summary>
    public int Damages { get; private set; }

    /// <summary>How the runs ended that were not cut off.</summary>
    public HashSet<RunOutcome> Outcomes { get; } = [];

    /// <summary>From where the run was last chosen to go on.</summary>
    public Settlement Settled { get; set; } = Settlement.OfBeginning;

    public Operator Operator { get; }

    /// <summary>Whether nothing goes wrong in this attempt, nor is still wrong from the one before.</summary>
    public bool IsQuiet { get; private set; }

    public override long TimestampFrequency => 1_000_000;

    public override long GetTimestamp() => Now;

    public override DateTimeOffset GetUtcNow() => new DateTimeOffset(2000, 1, 1, 0, 0, 0, TimeSpan.Zero) + _timeOfDay + TimeSpan.FromMicroseconds(Now);

    /// <summary>An attempt begins: the port is opened.</summary>
    public SimulatedLine Open(FaultPlan plan)
    {
        (_faults, _attemptBegan) = (new FaultCounter(plan.Faults), Now);
        IsQuiet = plan.IsQuiet && _eStopUntil == 0 && Now >= _hostStallsUntil;
        Operator.Come(mustObey: IsQuiet, isHeard: Plant != Plant.RequestsAreLost);
        Watch.NewAttempt(mustObey: IsQuiet);
        if (_resetsWhenOpened)
            ResetBoard(ResetReason.ExternalReset);
        return _line = new SimulatedLine(this, new OneWay(plan.ToBoard, _delay, _random), new OneWay(plan.ToHost, _delay, _random));
    }

    /// <summary>The attempt is over: its line is closed, and no fault of it strikes any more.</summary>
    public void Close()
    {
        CutLine("closed");
        AllStruck = _faults.AllStruck;
        Damages += _line!.ToBoard.Damages + _line.ToHost.Damages;
        _line = null;
        Operator.Leave();
        _faults = FaultCounter.None;
        _hostDies = false;
        Disk.IsFull = false;
        Board.CutEndstop = null;
    }

    /// <summary>The run has said that the machine is at rest: it stays so until somebody goes on.</summary>
    public void MustRest()
    {
        var steps = Board.Steps;
        LetPass(20_000);
        Fail.If(steps != Board.Steps, $"the machine was said to be at rest, and it moved");
    }

    /// <summary>Time passes with nobody at the line.</summary>
    public void LetPass(long microseconds)
    {
        for (var until = Now + microseconds; Now < until;)
            Step(Math.Min(Quantum, until - Now));
    }

    /// <summary>A layer is done, and before the machine goes on the host has other work.</summary>
    public void LayerIsDone()
    {
        MustRest();
        Meet(Trigger.Layer);
        LetPass(_random.Next(200_000));
    }

    /// <summary>The disk takes its time until something is written through.</summary>
    public void WaitForDisk() => LetPass(_random.Next(_longestWrite + 1));

    /// <summary>The host puts a frame on the line.</summary>
    public void Sending(ReadOnlySpan<byte> frame)
    {
        Watch.HostSends(frame);
        Meet(Trigger.HostFrame);
        DieIfDead();
    }

    /// <summary>A turn of the host's loop is done, before it waits.</summary>
    public void Turn(SimulatedLine line)
    {
        Meet(Trigger.Turn);
        while (Now < _hostStallsUntil && line.IsOpen)
            Step(Quantum);
        DieIfDead();
        Operator.Look(Now);
    }

    /// <summary>A moment passes.</summary>
    public void Step(long microseconds)
    {
        while (_line?.ToBoard.Receive(Now) is { } octets)
            BoardReceives(octets);
        Board.Advance(microseconds);
        Watch.Look(Now);
        for (; _worked < Board.Worked; _worked++)
        {
            Watch.CellWorked(_worked);
            Meet(Trigger.Cell);
        }

        Operator.See(Now);
        TakeFromBoard();
        while (_line?.ToHost.Receive(Now) is { } octets)
            _line.Arrive(octets);
        EndWhatIsOver();
        Meet(Trigger.Time, (int)((Now - _attemptBegan) / 1000));
        DieIfDead();
    }

    public void Dispose() => Board.Dispose();

    public void Tell(string what) => Story?.Add($"{Now / 1000.0:0.0} ms: {what}");

    private void BoardReceives(byte[] octets)
    {
        Watch.BoardHears(octets, Now + octets.Length * 20);
        Board.Receive(octets);
    }

    private void TakeFromBoard()
    {
        for (int count; (count = Board.Take(_octets)) > 0;)
            for (var index = 0; index < count; index++)
            {
                _frame.Add(_octets[index]);
                if (!Watch.BoardSends(_octets[index]))
                    continue;
                _line?.ToHost.Send(_frame.ToArray(), Now);
                _frame.Clear();
                Meet(Trigger.BoardFrame);
                Meet(Trigger.Record, (int)Watch.RecordsDone);
            }
    }

    private void EndWhatIsOver()
    {
        if (_eStopUntil != 0 && Now >= _eStopUntil)
            (Board.EStopIsOpen, _eStopUntil) = (false, 0);
        if (_diskFullUntil != 0 && Now >= _diskFullUntil)
            (Disk.IsFull, _diskFullUntil) = (false, 0);
    }

    private WriteDeath DeathAt(int write)
    {
        var death = WriteDeath.None;
        foreach (var fault in _faults.Count(Trigger.JournalWrite))
        {
            Tell($"{fault}");
            switch (fault.What)
            {
                case Strike.FillDisk:
                    (Disk.IsFull, _diskFullUntil) = (true, Now + fault.Milliseconds * 1000L);
                    break;
                case Strike.LosePowerInWrite:
                    Disk.LosePower();
                    death = WriteDeath.HalfWay;
                    break;
                default:
                    death = fault.What == Strike.DieBeforeWrite ? WriteDeath.Before : fault.What == Strike.DieInWrite ? WriteDeath.HalfWay : WriteDeath.After;
                    break;
            }
        }

        return death;
    }

    private void Meet(Trigger what, int? count = null)
    {
        foreach (var fault in _faults.Count(what, count))
            MeetFault(fault);
    }

    private void MeetFault(Fault fault)
    {
        var until = Now + fault.Milliseconds * 1000L;
        Tell($"{fault}");
        switch (fault.What)
        {
            case Strike.KillHost:
                _hostDies = true;
                break;
            case Strike.StallHost:
                _hostStallsUntil = until;
                break;
            case Strike.JumpClock:
                _timeOfDay += TimeSpan.FromHours(_random.Next(-1000, 1000));
                break;
            case Strike.CutCable:
                CutLine("the line was cut");
                break;
            case Strike.StallLine:
                _line?.ToBoard.StallUntil(until);
                _line?.ToHost.StallUntil(until);
                break;
            case Strike.LoseAll:
                _line?.ToBoard.LoseAllUntil(until);
                _line?.ToHost.LoseAllUntil(until);
                break;
            case Strike.Misread:
                Board.MisreadOctet();
                break;
            case Strike.ResetBoard:
                ResetBoard(_random.Next(2) == 0 ? ResetReason.BrownOut : ResetReason.Watchdog);
                break;
            case Strike.EStop:
                (Board.EStopIsOpen, _eStopUntil) = (true, until);
                break;
            case Strike.CutEndstop:
                Board.CutEndstop = _random.Next(2);
                break;
            case Strike.Hold:
                Operator.Ask(MachineCommand.Hold, Now);
                break;
            case Strike.Stop:
                Operator.Ask(MachineCommand.Stop, Now);
                break;
            case Strike.Abort:
                Operator.Ask(MachineCommand.Abort, Now);
                break;
        }
    }

    private void ResetBoard(ResetReason reason)
    {
        Board.Reset(reason);
        Watch.BoardWasReset();
    }

    private void CutLine(string because)
    {
        if (_line is null || !_line.IsOpen)
            return;
        _line.Close(because);
        if (_line.ToBoard.Cut() is { Length: > 0 } part)
            BoardReceives(part);
        _line.Arrive(_line.ToHost.Cut());
    }

    private void DieIfDead()
    {
        if (_hostDies)
            throw new HostDiedException();
    }
}

using Bridge.Jobs;
using Bridge.Mock;

namespace Bridge.Runs.Tests;

/// <summary>
/// A run on the mock device in virtual time. Whatever the run does, the journal is held against the gantry: it claims no cell that was not
/// worked, and the device takes no record that the journal does not call sent.
/// </summary>
internal sealed class Rig : IDisposable
{
    public static readonly RunSettings Settings = new() { RunId = 7, Token = 0x4321, Device = "mock" };

    private readonly List<Position> _cells;
    private readonly List<long> _cellsBefore; // each record of the run: cells worked before it
    private int _due; // of what is to be done once

    public Rig(Machine machine, JobFile job, MockFaults? faults = null, int seed = 1, RunSettings? settings = null, IJournal? journal = null)
    {
        Device = new MockDevice(new Gantry(machine, seed), faults);
        Port = new MockPort(Device, Time, machine.Baud, faults, seed);
        Line = new WatchedLine(Port.Open(), Time) { EachTurn = LookAtJournal };
        (_cells, _cellsBefore) = Played(job);
        Run = new RunController(ProvedJob.Of(job, machine), settings ?? Settings, journal ?? Journal, Watcher);
        Journal.Written = LookAtEntry;
        JournalIsKept = journal is null;
    }

    public static Rig OfSmallJob(RunSettings? settings = null, MockFaults? faults = null, int seed = 1) =>
        new(Examples.Gantry, Examples.SmallJob, faults, seed, settings);

    public VirtualTime Time { get; } = new();

    public MockDevice Device { get; }

    public MockPort Port { get; }

    public WatchedLine Line { get; }

    public MemoryJournal Journal { get; } = new();

    public Onlooker Watcher { get; } = new();

    public RunController Run { get; }

    public IReadOnlyList<Position> Cells => _cells;

    private bool JournalIsKept { get; }

    /// <summary>Does something in each turn of the loop, before its wait.</summary>
    public void EachTurn(Action<int> act) => Line.EachTurn += act;

    /// <summary>Does something when the gantry has worked a cell, with how many it has worked.</summary>
    public void AtCell(Action<long> act) => Device.Gantry.CellWorked += _ => act(Device.Gantry.CellsWorked);

    /// <summary>
    /// Does something once, as soon as it is time for it. That must come before the run's end: else what is to be looked at then is never looked at.
    /// </summary>
    public void Once(Func<bool> when, Action act)
    {
        _due++;
        PerhapsOnce(when, () =>
        {
            _due--;
            act();
        });
    }

    /// <summary>The same where the run may end before it is time for it.</summary>
    public void PerhapsOnce(Func<bool> when, Action act)
    {
        var done = false;
        EachTurn(_ =>
        {
            if (done || !when())
                return;
            done = true;
            act();
        });
    }

    public RunEnd ToEnd()
    {
        var run = RunLoop.RunAsync(Run, Line, Time);
        Assert.True(run.IsCompleted, "Virtual time passes within the loop.");
        var end = run.GetAwaiter().GetResult();
        Assert.True(_due == 0, $"The run ended before it was time for {_due} of what was to be done in it: {end.Words}");
        return end;
    }

    /// <summary>The gantry has worked the whole job, each cell once and in order, and the run knows it.</summary>
    public void HasWorkedAll()
    {
        Assert.Equal(_cells, Device.Gantry.Worked);
        Assert.Equal(_cells.Count, Run.Worked.Counts.A + Run.Worked.Counts.B);
    }

    /// <summary>The gantry has worked the job's first cells, each once and in order, and the run knows which.</summary>
    public void HasWorkedAPart()
    {
        Assert.Equal(_cells.Take(Device.Gantry.Worked.Count), Device.Gantry.Worked);
        Assert.Equal(Device.Gantry.Worked.Count, Run.Worked.Counts.A + Run.Worked.Counts.B);
    }

    /// <summary>Much later the machine is where it was: nothing goes on by itself.</summary>
    public void StaysSo()
    {
        var (state, cells) = (Device.State, Device.Gantry.CellsWorked);
        var place = (Device.Gantry.X.PlaceMm, Device.Gantry.Y.PlaceMm);
        Line.Dispose();
        Port.LetPass(TimeSpan.FromMinutes(5));
        Assert.Equal((state, cells), (Device.State, Device.Gantry.CellsWorked));
        Assert.Equal(place, (Device.Gantry.X.PlaceMm, Device.Gantry.Y.PlaceMm));
        Assert.Equal(0, Device.Gantry.MovesWithoutPower);
    }

    public void Dispose()
    {
        Line.Dispose();
        Port.Dispose();
    }

    private void LookAtJournal(int turn)
    {
        if (JournalIsKept && Device.Status.RunId == Settings.RunId)
            Assert.True(Device.Status.RecordsTaken <= Journal.Sent, "The device has records that the journal does not call sent.");
    }

    private void LookAtEntry(JournalEntry entry)
    {
        Assert.Equal(Journal.Entries.Count - 1, entry.N);
        if (entry.Kind is not (JournalKind.State or JournalKind.Done or JournalKind.End) || entry.Records is not { } records)
            return;
        Assert.True(records <= Journal.Sent);
        Assert.True(_cellsBefore[(int)records] + entry.Cells!.Value <= Device.Gantry.CellsWorked, "The journal claims more than the gantry worked.");
    }

    private static (List<Position> Cells, List<long> Before) Played(JobFile job)
    {
        var (cells, before) = (new List<Position>(), new List<long>());
        var passes = new PassReader(job.Image, job.Grid);
        while (passes.TryNext(out var pass))
        {
            before.Add(cells.Count);
            foreach (var cell in pass.Work)
                cells.Add(pass.Entry with { Cell = cell });
        }

        before.AddRange([cells.Count, cells.Count]); // the end, and after it
        return (cells, before);
    }
}

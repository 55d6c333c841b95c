using System.Diagnostics;
using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>What the execution of a run comes to next.</summary>
internal enum ExecutionStep
{
    /// <summary>Something to do.</summary>
    Act,

    /// <summary>No record is there, and the run is not at its end.</summary>
    Starved,

    /// <summary>The run is at its end.</summary>
    Ended,

    /// <summary>A record holds until the operator goes on.</summary>
    OperatorWait,

    /// <summary>The next record may not be executed.</summary>
    BadRecord,
}

/// <summary>One run: takes records into a bounded queue and turns them into acts, one at a time.</summary>
internal sealed class Execution(Machine machine, Acts acts, ushort runId, uint recordCount, int capacity, StoredRecords? stored = null)
{
    private readonly Queue<Record> _queue = new();
    private Pass _pass;
    private IEnumerator<Act>? _acts;
    private CellPathEnumerator _cells;
    private Act _rest;
    private bool _lowerAgain;
    private uint _limitAtEnd;

    /// <summary>The host's number for the run.</summary>
    public ushort RunId => runId;

    /// <summary>Whether its records come from the store.</summary>
    public bool IsStored => stored is not null;

    /// <summary>Whether the run is over: its counters stay, it takes no more.</summary>
    public bool HasEnded { get; private set; }

    /// <summary>Records taken.</summary>
    public uint Taken { get; private set; }

    /// <summary>Records may be sent whose index is below it.</summary>
    public uint Limit => HasEnded ? _limitAtEnd : Math.Min(recordCount, Taken + (uint)(capacity - _queue.Count));

    /// <summary>Records done.</summary>
    public uint Done { get; private set; }

    /// <summary>Cells worked of the record that is being done.</summary>
    public uint CellsDone { get; private set; }

    /// <summary>Where the job stands.</summary>
    public Position Position { get; private set; }

    /// <summary>Whether records wait, or one is being done.</summary>
    public bool HasWork => IsStored || _queue.Count > 0 || _acts is not null;

    /// <summary>Takes whole records, or none of them and says why.</summary>
    public Answer Take(uint firstIndex, ReadOnlySpan<byte> octets)
    {
        var width = machine.Width;
        if (HasEnded)
            return Answer.NoRun;
        if (octets.Length % width.Bytes != 0)
            return Answer.BadValue;
        var count = octets.Length / width.Bytes;
        if (firstIndex != Taken)
            return Answer.IndexMismatch;
        if ((ulong)firstIndex + (uint)count > recordCount)
            return Answer.BeyondRun;
        if (firstIndex + (uint)count > Limit)
            return Answer.QueueOverrun;
        for (var index = 0; index < count; index++)
            if (!IsValid(RecordCodec.Read(width, octets[(index * width.Bytes)..]), firstIndex + (uint)index))
                return Answer.BadRecord;
        for (var index = 0; index < count; index++)
            _queue.Enqueue(RecordCodec.Read(width, octets[(index * width.Bytes)..]));
        Taken += (uint)count;
        return Answer.Accepted;
    }

    /// <summary>Goes to what is to be done next, from where the carriage is.</summary>
    public ExecutionStep Next(Place at, out Act act)
    {
        while (true)
        {
            var step = Raw(out act);
            if (step != ExecutionStep.Act || !_lowerAgain || act.Kind is not (ActKind.LiftPen or ActKind.WorkMove))
                return step;
            _lowerAgain = false;
            if (act.Kind == ActKind.LiftPen)
                continue; // it is up already
            _rest = act;
            act = Act.Stand(ActKind.LowerPen, at, ((HeadTool.Pen)machine.Tool(Position.Head)!).Lower.TotalSeconds);
            return step;
        }
    }

    /// <summary>Keeps what a controlled stop left of an act.</summary>
    public void PutBack(Act rest)
    {
        if (rest.Kind == ActKind.None)
            return; // what waits behind a pen that is being lowered stays
        Debug.Assert(_rest.Kind == ActKind.None, "Only one act is broken off at a time.");
        _rest = rest;
    }

    /// <summary>The act that lifts the pen in a controlled stop; it is lowered again before the next work.</summary>
    public Act LiftForNow(Place at)
    {
        _lowerAgain = true;
        return Act.Stand(ActKind.LiftPen, at, machine.Tool(Position.Head) is HeadTool.Pen pen ? pen.Lift.TotalSeconds : 0);
    }

    /// <summary>Notes that the next cell is worked.</summary>
    public void CountCell()
    {
        var there = _cells.MoveNext();
        Debug.Assert(there, "A record works no more cells than it has.");
        CellsDone++;
        Position = _pass.Entry with { Cell = _cells.Current };
    }

    /// <summary>Notes that an act is done.</summary>
    public void CountAct(ActKind kind)
    {
        if (HasEnded || _rest.Kind != ActKind.None)
            return; // broken off
        if (kind == ActKind.Rise)
            Position = Position with { Layer = _pass.Entry.Layer };
        if (kind == ActKind.ChangeHead)
            Position = Position with { Head = _pass.Entry.Head };
        if (kind == ActKind.IdleMove)
            Position = _pass.Entry;
    }

    /// <summary>Notes that the machine has been brought home.</summary>
    public void ComeHome() => Position = default;

    /// <summary>Ends the run; what is left of it is dropped.</summary>
    public void End()
    {
        if (HasEnded)
            return;
        _limitAtEnd = Limit;
        HasEnded = true;
        _queue.Clear();
        _acts = null;
        _rest = default;
    }

    private ExecutionStep Raw(out Act act)
    {
        act = _rest;
        _rest = default;
        if (act.Kind != ActKind.None)
            return ExecutionStep.Act;
        while (true)
        {
            if (_acts is null && Dequeue() is { } step)
                return step;
            if (_acts!.MoveNext())
            {
                act = _acts.Current;
                return act.Kind == ActKind.HoldForOperator ? ExecutionStep.OperatorWait : ExecutionStep.Act;
            }

            _acts = null;
            Done++;
            CellsDone = 0;
            Position = _pass.After;
        }
    }

    private ExecutionStep? Dequeue()
    {
        if (Done == recordCount)
            return ExecutionStep.Ended;
        if (!TryTakeNext(out var record, out var step))
            return step;
        if (record.Verb == Verb.End)
        {
            Done++;
            return ExecutionStep.Ended;
        }

        var pass = PassReader.PassOf(machine.Width, (int)Done, record, Position);
        if (!IsAllowed(pass))
            return ExecutionStep.BadRecord;
        (_pass, _cells, _acts) = (pass, pass.Work.GetEnumerator(), acts.Of(pass).GetEnumerator());
        return null;
    }

    private bool TryTakeNext(out Record record, out ExecutionStep step)
    {
        step = ExecutionStep.Starved;
        if (stored is null)
            return _queue.TryDequeue(out record);
        var isThere = stored.TryNext(out record);
        Taken += isThere ? 1u : 0;
        step = stored.IsBad ? ExecutionStep.BadRecord : ExecutionStep.Ended;
        return isThere;
    }

    /// <summary>A record that a device takes: `again` is unrolled by the host, and `end` ends nothing but the run.</summary>
    private bool IsValid(Record record, uint index) => record.Verb is not (Verb.None or Verb.Again)
        && (record.Verb != Verb.End || index == recordCount - 1)
        && ReservedBits.SetIn(record).Length == 0;

    private bool IsAllowed(Pass pass)
    {
        var (one, other) = pass.Work.Corners;
        var grid = machine.Grid;
        return pass.Entry.Layer < grid.Layers && machine.Tool(pass.Entry.Head) is not null && grid.Holds(one) && grid.Holds(other);
    }
}

using System.Diagnostics;
using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>
/// What a machine does for each pass of a job, in order. It remembers what passes leave behind, a lowered pen and the way
/// each axis moved last; so passes are asked for one after another. Each list it gives stands until the next is asked for,
/// and has at most two acts for each cell along one side of the grid, and a few.
/// </summary>
public sealed class Acts(Machine machine)
{
    private readonly Carriage _carriage = new(machine);
    private readonly Backlash _backlash = new(machine);
    private readonly List<Act> _acts = [];
    private Position _position;
    private HeadTool.Pen? _down;

    /// <summary>Whether a pen is down.</summary>
    public bool PenIsDown => _down is not null;

    private Place Here => _carriage.PlaceOf(_position);

    /// <summary>The acts of one pass, in order. The machine must have its head and the grid its cells.</summary>
    public IReadOnlyList<Act> Of(Pass pass)
    {
        _acts.Clear();
        _position = pass.Before;
        var tool = machine.Tool(pass.Entry.Head) ?? throw new UnreachableException("The machine has the head.");
        var start = StartOf(pass, tool);
        if (MustLift(pass, start))
            Lift();
        Approach(pass, start);
        if (pass.Record.Verb == Verb.Wait)
            Wait(pass.Record);
        else if (pass.Work.Cells > 0 && tool is HeadTool.Dot dot)
            Dots(pass.Work, dot);
        else if (pass.Work.Cells > 0)
            Strokes(pass.Work, (HeadTool.Pen)tool);
        Debug.Assert(_position == pass.After, "The acts lead where the pass does.");
        return _acts;
    }

    /// <summary>The acts at the end of a job: a lowered pen is lifted.</summary>
    public IReadOnlyList<Act> AtEnd()
    {
        _acts.Clear();
        Lift();
        return _acts;
    }

    /// <summary>
    /// The acts that bring a referenced machine from anywhere, its pen up, to where a job starts: straight along X and Y,
    /// then Z, then the play of the axes that came from beyond, so that each axis is as referencing leaves it.
    /// </summary>
    public IReadOnlyList<Act> Home(Place from)
    {
        _acts.Clear();
        _down = null;
        _position = default;
        var over = Here with { ZMm = from.ZMm };
        Move(ActKind.IdleMove, from, over);
        Move(ActKind.IdleMove, over, Here);
        TakeUp(Here, _backlash.TurnAway());
        return _acts;
    }

    /// <summary>
    /// Where the idle move leads: to the entry, but with a pen that is up straight to the first cell of a line.
    /// </summary>
    private Position StartOf(Pass pass, HeadTool tool)
    {
        if (pass.Record.Verb != Verb.Line || tool is not HeadTool.Pen || pass.Work.Cells == 0)
            return pass.Entry;
        if (_down is not null && !MustLift(pass, pass.Entry))
            return pass.Entry;
        var cells = pass.Work.GetEnumerator();
        cells.MoveNext();
        return pass.Entry with { Cell = cells.Current };
    }

    private bool MustLift(Pass pass, Position start) => pass.Record.Verb == Verb.Wait
        || pass.Entry.Layer != pass.Before.Layer
        || pass.Entry.Head != pass.Before.Head
        || _carriage.PlaceOf(start) != _carriage.PlaceOf(pass.Before);

    private void Lift()
    {
        if (_down is { } pen)
            _acts.Add(Act.Stand(ActKind.LiftPen, Here, pen.Lift.TotalSeconds));
        _down = null;
    }

    private void Approach(Pass pass, Position start)
    {
        var before = Here;
        _position = _position with { Layer = pass.Entry.Layer };
        Move(ActKind.Rise, before, Here);
        before = Here;
        if (pass.Entry.Head != pass.Before.Head)
            _acts.Add(Act.Stand(ActKind.ChangeHead, before, machine.HeadChange.TotalSeconds));
        _position = start;
        Move(ActKind.IdleMove, before, Here);
    }

    private void Wait(Record record) => _acts.Add(Act.Stand(
        record.Heading == 1 ? ActKind.HoldForOperator : ActKind.Wait, Here, record.PairPq(machine.Width) / 10.0));

    private void Strokes(CellPath work, HeadTool.Pen pen)
    {
        // A line that begins with the pen up has been approached at its first cell, which then is worked where it stands.
        var isAtFirst = work.WorksStart || _position.Cell != work.Start;
        if (_down is null)
            _acts.Add(Act.Stand(ActKind.LowerPen, Here, pen.Lower.TotalSeconds));
        _down = pen;
        if (isAtFirst)
            _acts.Add(new Act(ActKind.WorkMove, Here, Here, default, 0, 1, 0));
        var isLineCutShort = isAtFirst && !work.WorksStart;
        for (var index = 0; index < work.Legs; index++)
            Stroke(work.LegAt(index), isLineCutShort ? 1 : 0);
    }

    private void Stroke(Leg leg, int cellsDone)
    {
        var cells = leg.Cells - cellsDone;
        if (cells == 0)
            return;
        var from = Here;
        _position = _position with { Cell = leg.To };
        TakeUp(from, _backlash.Turn(Here - from));
        var profile = _carriage.ProfileAlong(Here - from);
        _acts.Add(new Act(ActKind.WorkMove, from, Here, profile, 0, cells, profile.DistanceMm / cells));
    }

    private void Dots(CellPath work, HeadTool.Dot dot)
    {
        var runs = new DotRuns(work);
        while (runs.MoveNext())
        {
            var from = Here;
            _position = _position with { Cell = runs.Current.To };
            var way = Here - from;
            TakeUp(from, _backlash.Turn(way));
            var cells = Math.Max(1, runs.Current.Cells);
            var profile = _carriage.ProfileAlong(new Place(way.XMm / cells, way.YMm / cells, 0));
            _acts.Add(new Act(ActKind.WorkDots, from, Here, profile, dot.PerCell.TotalSeconds, cells, profile.DistanceMm));
        }
    }

    private void Move(ActKind kind, Place from, Place to)
    {
        if (from == to)
            return;
        TakeUp(from, _backlash.Turn(to - from));
        _acts.Add(Act.Move(kind, from, to, _carriage.ProfileAlong(to - from)));
    }

    private void TakeUp(Place at, Place play)
    {
        if (play != default)
            _acts.Add(Act.Move(ActKind.TakeUp, at, at, _carriage.ProfileAlong(play)) with { Play = play });
    }
}

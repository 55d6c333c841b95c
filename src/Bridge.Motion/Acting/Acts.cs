using System.Diagnostics;
using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>
/// What a machine does for each pass of a job, in order. It remembers what passes leave behind, a lowered pen and the way
/// each axis moved last; so each sequence it gives is to be gone through once, to its end, and one after another.
/// </summary>
public sealed class Acts(Machine machine)
{
    private readonly Carriage _carriage = new(machine);
    private readonly Backlash _backlash = new(machine);
    private Position _position;
    private HeadTool.Pen? _down;

    /// <summary>Whether a pen is down.</summary>
    public bool PenIsDown => _down is not null;

    /// <summary>The acts of one pass, in order. The machine must have its head and the grid its cells.</summary>
    public IEnumerable<Act> Of(Pass pass)
    {
        _position = pass.Before;
        var tool = machine.Tool(pass.Entry.Head) ?? throw new UnreachableException("The machine has the head.");
        var start = StartOf(pass, tool);
        if (_down is { } pen && MustLift(pass, start))
            yield return Lift(pen);
        foreach (var act in Approach(pass, start))
            yield return act;
        if (pass.Record.Verb == Verb.Wait)
            yield return Wait(pass.Record);
        else if (pass.Work.Cells > 0)
            foreach (var act in tool is HeadTool.Dot dot ? Dots(pass.Work, dot) : Strokes(pass.Work, (HeadTool.Pen)tool))
                yield return act;
        Debug.Assert(_position == pass.After, "The acts lead where the pass does.");
    }

    /// <summary>The acts at the end of a job: a lowered pen is lifted.</summary>
    public IEnumerable<Act> AtEnd()
    {
        if (_down is { } pen)
            yield return Lift(pen);
    }

    /// <summary>
    /// The acts that bring a referenced machine from anywhere, its pen up, to where a job starts: straight along X and Y,
    /// then Z, then the play of the axes that came from beyond, so that each axis is as referencing leaves it.
    /// </summary>
    public IEnumerable<Act> Home(Place from)
    {
        _down = null;
        _position = default;
        var home = _carriage.PlaceOf(_position);
        var over = home with { ZMm = from.ZMm };
        foreach (var act in Straight(ActKind.IdleMove, from, over).Concat(Straight(ActKind.IdleMove, over, home)))
            yield return act;
        var play = _backlash.TurnAway();
        if (play != default)
            yield return Act.Move(ActKind.TakeUp, home, home, _carriage.ProfileAlong(play));
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

    private IEnumerable<Act> Approach(Pass pass, Position start)
    {
        if (pass.Entry.Layer != pass.Before.Layer)
            foreach (var act in MoveTo(ActKind.Rise, _position with { Layer = pass.Entry.Layer }))
                yield return act;
        var before = _carriage.PlaceOf(_position);
        if (pass.Entry.Head != pass.Before.Head)
            yield return Act.Stand(ActKind.ChangeHead, before, machine.HeadChange.TotalSeconds);
        _position = start;
        foreach (var act in Straight(ActKind.IdleMove, before, _carriage.PlaceOf(start)))
            yield return act;
    }

    private Act Wait(Record record) => Act.Stand(
        record.Heading == 1 ? ActKind.HoldForOperator : ActKind.Wait,
        _carriage.PlaceOf(_position), record.PairPq(machine.Width) / 10.0);

    private IEnumerable<Act> Strokes(CellPath work, HeadTool.Pen pen)
    {
        var here = _carriage.PlaceOf(_position);
        var firstIsHere = work.WorksStart || _position.Cell != work.Start;
        if (_down is null)
        {
            _down = pen;
            yield return Act.Stand(ActKind.LowerPen, here, pen.Lower.TotalSeconds);
        }

        if (firstIsHere)
            yield return new Act(ActKind.WorkMove, here, here, default, 0, 1, 0);
        for (var index = 0; index < work.Legs; index++)
        {
            var leg = work.LegAt(index);
            foreach (var act in Stroke(new Leg(_position.Cell, leg.To), leg.Cells - (work.WorksStart || !firstIsHere ? 0 : 1)))
                yield return act;
        }
    }

    private IEnumerable<Act> Stroke(Leg leg, int cells)
    {
        if (cells == 0)
            yield break;
        var from = _carriage.PlaceOf(_position);
        _position = _position with { Cell = leg.To };
        var to = _carriage.PlaceOf(_position);
        if (TakeUp(from, to - from) is { } takeUp)
            yield return takeUp;
        var profile = _carriage.ProfileAlong(to - from);
        yield return new Act(ActKind.WorkMove, from, to, profile, 0, cells, profile.DistanceMm / cells);
    }

    private IEnumerable<Act> Dots(CellPath work, HeadTool.Dot dot)
    {
        var seconds = dot.PerCell.TotalSeconds;
        var runs = new DotRuns(work);
        while (runs.MoveNext())
        {
            var run = runs.Current;
            var from = _carriage.PlaceOf(_position);
            _position = _position with { Cell = run.To };
            var to = _carriage.PlaceOf(_position);
            if (TakeUp(from, to - from) is { } takeUp)
                yield return takeUp;
            var cells = Math.Max(1, run.Cells);
            var way = to - from;
            var profile = _carriage.ProfileAlong(new Place(way.XMm / cells, way.YMm / cells, 0));
            yield return new Act(ActKind.WorkDots, from, to, profile, seconds, cells, profile.DistanceMm);
        }
    }

    private IEnumerable<Act> MoveTo(ActKind kind, Position to)
    {
        var from = _carriage.PlaceOf(_position);
        _position = to;
        return Straight(kind, from, _carriage.PlaceOf(to));
    }

    private IEnumerable<Act> Straight(ActKind kind, Place from, Place to)
    {
        if (from == to)
            yield break;
        if (TakeUp(from, to - from) is { } takeUp)
            yield return takeUp;
        yield return Act.Move(kind, from, to, _carriage.ProfileAlong(to - from));
    }

    private Act? TakeUp(Place at, Place way)
    {
        var play = _backlash.Turn(way);
        return play == default ? null : Act.Move(ActKind.TakeUp, at, at, _carriage.ProfileAlong(play));
    }

    private Act Lift(HeadTool.Pen pen)
    {
        _down = null;
        return Act.Stand(ActKind.LiftPen, _carriage.PlaceOf(_position), pen.Lift.TotalSeconds);
    }
}

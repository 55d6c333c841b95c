using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>One record in the making: takes on what it should say, and does not fit once a thing cannot be said.</summary>
internal sealed class LayoutWriting(Layout layout, LayoutVerb verb)
{
    private ulong _word = verb.Bits;
    private bool _fits = true;

    /// <summary>The record; null where the verb cannot say all that it should.</summary>
    public ulong? Word => _fits ? _word : null;

    /// <summary>Says a number; where the verb has no such role, it must be what holds without.</summary>
    public LayoutWriting Put(LayoutRole role, int number, int absent = 0)
    {
        if (verb.Sources.TryGetValue(role, out var source))
            Add(source.Write(number));
        else
            _fits &= number == absent;
        return this;
    }

    public LayoutWriting Count(LayoutRole role, int count)
    {
        var isField = verb.Sources.TryGetValue(role, out var source) && source.Always is null;
        return Put(role, isField ? count - layout.CountsFrom : count, absent: 1);
    }

    public LayoutWriting Place(Cell from, Cell to)
    {
        Place(LayoutRole.X, LayoutRole.SignX, from.X, to.X);
        Place(LayoutRole.Y, LayoutRole.SignY, from.Y, to.Y);
        _fits &= to.X < layout.PositionsX && to.Y < layout.PositionsY;
        return this;
    }

    /// <summary>The head that is wanted, or null for the one that is there; null where that is not known.</summary>
    public LayoutWriting Head(Head? there, Head? wanted)
    {
        if (verb.Has(LayoutRole.Head) && (wanted ?? there) is { } head)
            return Put(LayoutRole.Head, (int)head);
        _fits &= wanted is null || wanted == there;
        return this;
    }

    public LayoutWriting Rise(bool rise)
    {
        if (verb.Act == LayoutAct.Rise)
            _fits &= rise;
        else
            Put(LayoutRole.Rise, rise ? 1 : 0);
        return this;
    }

    public LayoutWriting Heading(int heading)
    {
        if (verb.Has(LayoutRole.StepX) || verb.Has(LayoutRole.StepY))
        {
            var (dx, dy) = (Jobs.Heading.Dx(heading), Jobs.Heading.Dy(heading));
            return Put(LayoutRole.StepX, Math.Abs(dx)).Put(LayoutRole.SignX, dx < 0 ? 1 : 0).Put(LayoutRole.StepY, Math.Abs(dy))
                .Put(LayoutRole.SignY, dy < 0 ? 1 : 0);
        }
        if (!verb.Sources.TryGetValue(LayoutRole.Heading, out var source) || source.Always is not null)
            return Put(LayoutRole.Heading, heading);
        var number = layout.HeadingsOf(source.Width).ToList().IndexOf(heading);
        Add(source.Write(number));
        return this;
    }

    public LayoutWriting Way(PatchWay way) => verb.Has(LayoutRole.Way)
        ? Put(LayoutRole.Way, (int)way)
        : Put(LayoutRole.AlongY, (int)way & 1).Put(LayoutRole.SignX, (int)way >> 1 & 1).Put(LayoutRole.SignY, (int)way >> 2);

    private void Place(LayoutRole role, LayoutRole sign, int from, int to)
    {
        if (!verb.Sources.TryGetValue(role, out var source))
            _fits &= from == to;
        else if (!layout.IsRelative)
            Put(role, to);
        else if (LayoutNumbers.HasSign(verb, sign))
            Put(role, Math.Abs(to - from)).Put(sign, to < from ? 1 : 0);
        else if (source.Always is not null)
            Put(role, to - from);
        else
            Add(source.Write(LayoutReach.Of(layout, verb, role, sign).Holds(to - from) ? (to - from) & source.Largest : -1));
    }

    private void Add(ulong? bits)
    {
        _fits &= bits is not null;
        _word |= bits ?? 0;
    }
}

namespace Bridge.Jobs;

/// <summary>Where execution goes on when `again` is met: back to the first record it repeats, as often as it says.</summary>
internal sealed class AgainLoop(Image image)
{
    private int _first;
    private int _again = -1;     // the `again` that is being done; -1 outside
    private int _roundsLeft;

    /// <summary>What is being repeated; null outside.</summary>
    public Repeat? Present => _again < 0 ? null : new Repeat(_first, _again, _roundsLeft);

    /// <summary>The same loop at the same place, to go on by itself.</summary>
    public AgainLoop Copy() => (AgainLoop)MemberwiseClone();

    /// <summary>Forgets what is being repeated.</summary>
    public void Leave() => _again = -1;

    /// <summary>Enters an `again`; a fault where it reaches too far.</summary>
    public JobFault? Enter(int index, Record record, out int next)
    {
        next = index;
        var reach = record.PairXy(image.Width) + 1;
        var first = index - reach;
        if (first < 0)
            return JobFault.Of(JobRule.AgainBeforeFirst, index, image.Width, $"again over the last {reach} records",
                $"at most the {index} records before it", "Correct the count.");
        for (var before = first; before < index; before++)
            if (image[before].Verb == Verb.Again)
                return JobFault.Of(JobRule.AgainOverAgain, index, image.Width, $"again over the last {reach} records, record {before} among them",
                    $"at most the {index - before - 1} records behind the again at record {before}", "Correct the count.");
        (_first, _again, _roundsLeft) = (first, index, record.PairPq(image.Width));
        next = first;
        return null;
    }

    /// <summary>The record that follows one that was executed.</summary>
    public int After(int index)
    {
        if (index + 1 != _again)
            return index + 1;
        if (_roundsLeft-- > 0)
            return _first;
        _again = -1;
        return index + 2;
    }
}

namespace Bridge.Planning;

/// <summary>
/// Cells of a mask of which no block holds two: every cutting and every cover then has at least as many blocks. First those with the fewest mates, then
/// one is given up wherever two can take its place, and cells are forced in so that the search gets on (Andrade, Resende and Werneck 2012).
/// </summary>
internal sealed class CellsApart
{
    private const int MostTried = 48; // places that may come two for one, of each place that is given up
    private const int IdleTries = 3000;

    private readonly Mates _mates;
    private readonly Effort _effort;
    private readonly Random _random = new(1);
    private readonly List<int> _places = [];
    private readonly List<int> _free = []; // met on the way, with no mate chosen at that time
    private readonly List<int> _listed = [];
    private readonly int[] _against; // how many chosen mates a place has
    private readonly int[] _at; // 1 + where a place stands among those chosen; 0 where it is not
    private readonly List<int> _chosen = [];

    private CellsApart(Mask mask, Effort effort)
    {
        (_mates, _effort) = (new Mates(mask), effort);
        (_against, _at) = (new int[mask.Cells.Length], new int[mask.Cells.Length]);
        for (var place = 0; place < mask.Cells.Length; place++)
            if (mask.Cells[place])
                _places.Add(place);
    }

    /// <summary>Some such cells, as many as are found within an effort, as places of the mask: by y, then x.</summary>
    /// <param name="mask">The cells.</param>
    /// <param name="enough">More than so many are not looked for.</param>
    /// <param name="effort">How much work may be done.</param>
    public static List<int> Of(Mask mask, int enough, Effort effort)
    {
        var search = new CellsApart(mask, effort);
        search.Begin();
        search.GoOn(enough);
        search._chosen.Sort();
        return search._chosen;
    }

    private void Begin()
    {
        foreach (var place in _places.OrderBy(_mates.Estimate))
            if (_against[place] == 0 && _effort.IsLeft)
                Choose(place);
        foreach (var place in _chosen.ToList())
            if (_at[place] > 0)
                Exchange(place);
    }

    private void GoOn(int enough)
    {
        var best = _chosen.ToList();
        for (var idle = 0; idle < IdleTries && best.Count < enough && _effort.IsLeft; idle++)
        {
            var forced = _places[_random.Next(_places.Count)];
            if (_at[forced] > 0)
                continue;
            Force(forced);
            if (_chosen.Count < best.Count)
                Return(best);
            else if (_chosen.Count > best.Count)
                idle = 0;
            if (_chosen.Count >= best.Count)
                best = [.. _chosen];
        }
        Return(best);
    }

    private void Force(int forced)
    {
        var gone = ListMates(forced).Where(mate => _at[mate] > 0).ToList();
        foreach (var place in gone)
            GiveUp(place);
        Choose(forced);
        Settle();
        foreach (var place in gone.SelectMany(place => ListMates(place).ToList()).Where(place => _at[place] > 0).Distinct().ToList())
            if (_at[place] > 0 && _effort.IsLeft)
                Exchange(place);
    }

    // Gives a place up where two of its mates, or more, can come for it.
    private void Exchange(int place)
    {
        var near = ListMates(place).Where(mate => _against[mate] == 1).Take(MostTried).ToList();
        for (var one = 0; one < near.Count; one++)
            for (var other = one + 1; other < near.Count; other++)
                if (!_mates.AreTogether(near[one], near[other]))
                {
                    GiveUp(place);
                    Choose(near[one]);
                    Choose(near[other]);
                    Settle();
                    return;
                }
        _effort.Spend(near.Count * near.Count);
    }

    // Chooses what has become free.
    private void Settle()
    {
        for (; _free.Count > 0; _free.RemoveAt(_free.Count - 1))
            if (_against[_free[^1]] == 0 && _at[_free[^1]] == 0)
                Choose(_free[^1]);
    }

    private void Return(List<int> best)
    {
        foreach (var place in _chosen.Except(best).ToList())
            GiveUp(place);
        foreach (var place in best.Except(_chosen).ToList())
            Choose(place);
        _free.Clear();
    }

    private void Choose(int place)
    {
        _chosen.Add(place);
        _at[place] = _chosen.Count;
        foreach (var mate in ListMates(place))
            _against[mate]++;
    }

    private void GiveUp(int place)
    {
        var at = _at[place] - 1;
        (_chosen[at], _at[_chosen[^1]], _at[place]) = (_chosen[^1], at + 1, 0);
        _chosen.RemoveAt(_chosen.Count - 1);
        foreach (var mate in ListMates(place))
            if (--_against[mate] == 0)
                _free.Add(mate);
    }

    private List<int> ListMates(int place)
    {
        _mates.List(place, _listed);
        _effort.Spend(4 * _listed.Count + 50);
        return _listed;
    }
}

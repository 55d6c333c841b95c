namespace Bridge.Panel;

/// <summary>
/// The holds of a key or button on the page that moves the machine, numbered in their order. A network may bring leave to move after the word that the key was
/// let go: such leave is late, and moves nothing.
/// </summary>
internal sealed class Holds
{
    private string? _page;
    private long _newest;
    private bool _isOver;

    /// <summary>Whether leave of a hold counts: not where it is known to be over, or a later one of the same page has begun.</summary>
    public bool TryGoOn(string page, long hold)
    {
        if (page == _page && (hold < _newest || (hold == _newest && _isOver)))
            return false;
        (_page, _newest, _isOver) = (page, hold, false);
        return true;
    }

    /// <summary>A hold is over, and with it each before it.</summary>
    public void End(string page, long hold)
    {
        if (page != _page || hold >= _newest)
            (_page, _newest, _isOver) = (page, hold, true);
    }

    /// <summary>Nothing is known any more, as of a machine that is connected to anew.</summary>
    public void Forget() => (_page, _newest, _isOver) = (null, 0, false);
}

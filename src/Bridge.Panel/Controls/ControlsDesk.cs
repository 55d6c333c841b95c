namespace Bridge.Panel;

/// <summary>How the controls stand for one page.</summary>
/// <param name="Holds">Whether this page holds them.</param>
/// <param name="Pages">Pages that are open.</param>
/// <param name="Asked">Whether another page asks this one, which holds them, for them.</param>
/// <param name="Asking">Whether this page has asked for them.</param>
public sealed record ControlsView(bool Holds, int Pages, bool Asked, bool Asking);

/// <summary>
/// Which page holds the controls. The first to come has them; one that asks gets them when the holder gives them, or once the holder has been gone for 5 s.
/// May be called from any thread.
/// </summary>
/// <param name="time">Tells how long a page has been gone.</param>
public sealed class ControlsDesk(TimeProvider time)
{
    /// <summary>The most pages at a time.</summary>
    public const int MostPages = 8;

    /// <summary>How long a page may be gone, to be loaded anew, before it has lost the controls to one that asks.</summary>
    public static readonly TimeSpan Absence = TimeSpan.FromSeconds(5);

    private readonly Lock _door = new();
    private readonly Dictionary<string, int> _open = []; // streams of each page: a page that is loaded anew may have two for a moment
    private string? _holder;
    private string? _asker;
    private long _holderLeft; // by the clock that nobody sets

    /// <summary>A page has come; false where there are too many.</summary>
    public bool TryCome(string page)
    {
        lock (_door)
        {
            if (!_open.ContainsKey(page) && _open.Count >= MostPages)
                return false;
            _open[page] = _open.GetValueOrDefault(page) + 1;
            if (_holder is null)
                _holder = page;
            PassOn();
            return true;
        }
    }

    /// <summary>A page has gone, or one of its streams.</summary>
    public void Leave(string page)
    {
        lock (_door)
        {
            if (--_open[page] > 0)
                return;
            _open.Remove(page);
            if (_asker == page)
                _asker = null;
            if (_holder == page)
                _holderLeft = time.GetTimestamp();
        }
    }

    /// <summary>Whether a page holds the controls.</summary>
    public bool IsHeldBy(string page)
    {
        lock (_door)
        {
            PassOn();
            return _holder == page;
        }
    }

    /// <summary>A page asks for them. Of two that ask the first is heard; false for the second.</summary>
    public bool TryAsk(string page)
    {
        lock (_door)
        {
            if (!_open.ContainsKey(page) || (_asker is not null && _asker != page))
                return false;
            if (_holder != page)
                _asker = page;
            PassOn();
            return true;
        }
    }

    /// <summary>The holder gives them to the page that asks; false where it is not the holder, or nobody asks.</summary>
    public bool TryGive(string page)
    {
        lock (_door)
        {
            if (_holder != page || _asker is null)
                return false;
            (_holder, _asker) = (_asker, null);
            return true;
        }
    }

    /// <summary>The holder keeps them, or who asked no longer does.</summary>
    public void Refuse(string page)
    {
        lock (_door)
            if (_holder == page || _asker == page)
                _asker = null;
    }

    /// <summary>How they stand for a page.</summary>
    public ControlsView Of(string page)
    {
        lock (_door)
        {
            PassOn();
            return new ControlsView(_holder == page, _open.Count, _holder == page && _asker is not null, _asker == page);
        }
    }

    // A holder that is gone for good gives them to who asks, or to the only page that is left.
    private void PassOn()
    {
        if (_holder is null || _open.ContainsKey(_holder) || time.GetElapsedTime(_holderLeft) < Absence)
            return;
        var next = _asker ?? (_open.Count == 1 ? _open.Keys.Single() : null);
        if (next is not null)
            (_holder, _asker) = (next, null);
    }
}

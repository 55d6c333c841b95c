using Tomlyn.Syntax;

namespace Bridge.Jobs;

/// <summary>The mistakes found in one machine file so far.</summary>
internal sealed class MachineFileMistakes(string file)
{
    private const int MostListed = 100;
    private const int LongestKey = 60;
    private readonly List<(TextPosition At, Refusal Refusal)> _mistakes = [];
    private int _more;

    public bool Any => _mistakes.Count > 0;

    /// <summary>Notes a mistake at a place; the key may be empty where there is none to name.</summary>
    public void Add(TextPosition at, string key, string found, string allowed, string action)
    {
        if (_mistakes.Count == MostListed)
        {
            _more++;
            return;
        }

        var place = $"{file}:{at.Line + 1}:{at.Column + 1}";
        if (key.Length > 0) place += $" {MachineFileText.Clean(key, LongestKey)}";
        _mistakes.Add((at, new Refusal(place, found, allowed, action)));
    }

    public void RefuseIfAny()
    {
        if (!Any) return;

        var refusals = _mistakes.OrderBy(m => m.At.Line).ThenBy(m => m.At.Column).Select(m => m.Refusal).ToList();
        if (_more > 0) refusals.Add(new Refusal(file, $"{_more} more mistakes", "none", "Mend the ones above first."));
        throw new RefusedException(refusals);
    }
}

namespace Bridge.Planning;

/// <summary>Gathers what of a drawing is not drawn, so that it is told once.</summary>
internal sealed class SvgCautions(string name, Action<string>? caution)
{
    private const int MostNamed = 12;

    private readonly SortedDictionary<string, int> _leftOut = new(StringComparer.Ordinal);
    private readonly SortedDictionary<string, int> _without = new(StringComparer.Ordinal);

    /// <summary>Notes an element that is not drawn at all.</summary>
    public void LeftOut(string what) => Note(_leftOut, what);

    /// <summary>Notes a property that drawn elements do without.</summary>
    public void DrawnWithout(string what) => Note(_without, what);

    /// <summary>Says something at once.</summary>
    public void Say(string sentence) => caution?.Invoke(sentence);

    /// <summary>Tells all that was noted.</summary>
    public void Tell()
    {
        if (_leftOut.Count > 0)
            caution?.Invoke($"{name}: not drawn: {Listed(_leftOut)}.");
        if (_without.Count > 0)
            caution?.Invoke($"{name}: drawn without {Listed(_without)}.");
    }

    private static void Note(SortedDictionary<string, int> notes, string what)
    {
        if (notes.Count < 1000 || notes.ContainsKey(what))
            notes[what] = notes.GetValueOrDefault(what) + 1;
    }

    private static string Listed(SortedDictionary<string, int> notes) =>
        string.Join(", ", notes.Take(MostNamed).Select(note => note.Value == 1 ? note.Key : $"{note.Key} ({note.Value} times)"))
        + (notes.Count > MostNamed ? $" and {notes.Count - MostNamed} more" : "");
}

namespace Bridge.History;

/// <summary>A page to be shown: as HTML or as a PDF, with the same content.</summary>
/// <param name="Title">What it is about.</param>
/// <param name="Lead">The most important thing, in a sentence or two.</param>
/// <param name="Sections">Its parts.</param>
public sealed record Page(string Title, string Lead, IReadOnlyList<Section> Sections);

/// <summary>A part of a page.</summary>
/// <param name="Title">Its heading.</param>
/// <param name="Blocks">What stands in it.</param>
public sealed record Section(string Title, params IReadOnlyList<Block> Blocks);

/// <summary>Something that stands on a page.</summary>
public abstract record Block
{
    private Block()
    {
    }

    /// <summary>A paragraph.</summary>
    /// <param name="Text">What it says.</param>
    /// <param name="IsWarning">Whether it stands out.</param>
    public sealed record Words(string Text, bool IsWarning = false) : Block;

    /// <summary>Names and values.</summary>
    /// <param name="Rows">Each name with its value.</param>
    public sealed record Facts(params IReadOnlyList<(string Name, string Value)> Rows) : Block;

    /// <summary>Rows under heads. The first column is text, and so are those named; all others are numbers.</summary>
    /// <param name="Heads">The head of each column.</param>
    /// <param name="Rows">A text for each column.</param>
    /// <param name="TextColumns">How many columns from the right are text too.</param>
    public sealed record Table(IReadOnlyList<string> Heads, IReadOnlyList<IReadOnlyList<string>> Rows, int TextColumns = 0) : Block;

    /// <summary>A strip of time, its parts side by side.</summary>
    /// <param name="Spans">Each part: when it begins and how long it lasts, in seconds, what it is, and its tint.</param>
    public sealed record Strip(IReadOnlyList<(double Begins, double Seconds, string What, Tint Tint)> Spans) : Block;

    /// <summary>Pictures beside one another.</summary>
    /// <param name="Each">Each as a PNG with what it shows.</param>
    public sealed record Pictures(IReadOnlyList<(byte[] Png, string Caption)> Each) : Block;

    /// <summary>A chart of one value over many runs, with its limits.</summary>
    /// <param name="Title">What is drawn, with its unit.</param>
    /// <param name="Points">Each value, in order.</param>
    /// <param name="Center">The middle line; null where there is none yet.</param>
    /// <param name="Lower">The lower limit; null where there is none yet.</param>
    /// <param name="Upper">The upper limit; null where there is none yet.</param>
    public sealed record Chart(string Title, IReadOnlyList<double> Points, double? Center, double? Lower, double? Upper) : Block;
}

/// <summary>What a part of a strip is, by its colour; a word always goes with it.</summary>
public enum Tint
{
    /// <summary>Making ready.</summary>
    Ready,

    /// <summary>At work.</summary>
    Work,

    /// <summary>Held, or waiting.</summary>
    Hold,

    /// <summary>Stopped by trouble.</summary>
    Trouble,
}

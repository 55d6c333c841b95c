namespace Bridge.Layouts;

/// <summary>One thing on a page; places in mm from the upper left corner.</summary>
public abstract record Mark
{
    /// <summary>A line of text that stands on a base line.</summary>
    /// <param name="X">Where it begins.</param>
    /// <param name="Y">Its base line.</param>
    /// <param name="SizeMm">Size of the font.</param>
    /// <param name="Words">The text.</param>
    /// <param name="IsBold">Whether it is bold.</param>
    public sealed record Text(double X, double Y, double SizeMm, string Words, bool IsBold = false) : Mark;

    /// <summary>An upright rectangle.</summary>
    /// <param name="X">Its left side.</param>
    /// <param name="Y">Its upper side.</param>
    /// <param name="Width">Its width.</param>
    /// <param name="Height">Its height.</param>
    /// <param name="IsDark">Whether it is filled with grey.</param>
    public sealed record Box(double X, double Y, double Width, double Height, bool IsDark = false) : Mark;

    /// <summary>A thin straight line.</summary>
    /// <param name="X1">Where it begins.</param>
    /// <param name="Y1">Where it begins.</param>
    /// <param name="X2">Where it ends.</param>
    /// <param name="Y2">Where it ends.</param>
    public sealed record Rule(double X1, double Y1, double X2, double Y2) : Mark;
}

/// <summary>A page of A4 paper (ISO 216), upright.</summary>
/// <param name="Marks">What is on it.</param>
public sealed record Page(IReadOnlyList<Mark> Marks)
{
    /// <summary>Its width in mm.</summary>
    public const double WidthMm = 210;

    /// <summary>Its height in mm.</summary>
    public const double HeightMm = 297;

    /// <summary>How wide a letter is, in its size: all have the same width (Courier's, 0.6).</summary>
    public const double LetterWidth = 0.6;
}

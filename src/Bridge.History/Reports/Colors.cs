namespace Bridge.History;

/// <summary>The colours of a page. None stands alone: a word or a shape goes with each.</summary>
internal static class Colors
{
    public const string Ink = "#22211d";
    public const string Faint = "#6d695f";
    public const string Rule = "#d9d6cb";
    public const string Paper = "#fbfaf5";
    public const string Warning = "#a32020";
    public const string Value = "#1f4e79";

    public static string Of(Tint tint) => tint switch
    {
        Tint.Work => Value,
        Tint.Hold => "#c26a1b",
        Tint.Trouble => Warning,
        _ => "#a9a494",
    };

    public static (byte R, byte G, byte B) Rgb(string color) =>
        (Convert.ToByte(color[1..3], 16), Convert.ToByte(color[3..5], 16), Convert.ToByte(color[5..7], 16));
}

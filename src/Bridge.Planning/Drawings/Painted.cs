using SkiaSharp;

namespace Bridge.Planning;

/// <summary>A path of a drawing and how it is painted: its area first, its line over that.</summary>
/// <param name="Path">The path in units of its own.</param>
/// <param name="ToPage">From those to units of the page.</param>
/// <param name="Fill">What its area becomes; null leaves it as it is.</param>
/// <param name="Stroke">What its line becomes; null draws none.</param>
/// <param name="Pen">How wide lines are drawn.</param>
internal sealed record Painted(SKPath Path, SKMatrix ToPage, Ink? Fill, Ink? Stroke, Pen Pen);

/// <summary>What paint leaves on cells.</summary>
internal enum Ink : byte
{
    /// <summary>Nothing: light paint covers what lies below it.</summary>
    Light = 0,

    /// <summary>Work for head a.</summary>
    Dark = 1,

    /// <summary>Work for head b.</summary>
    Coloured = 2,
}

/// <summary>A line as wide as the drawing says, with its ends and corners.</summary>
/// <param name="Width">In units of the path, 0 and up.</param>
/// <param name="Cap">Its ends.</param>
/// <param name="Join">Its corners.</param>
/// <param name="Miter">How far pointed corners reach, in widths.</param>
internal readonly record struct Pen(float Width, SKStrokeCap Cap, SKStrokeJoin Join, float Miter);

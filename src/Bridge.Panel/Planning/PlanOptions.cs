using Bridge.Jobs;
using Bridge.Planning;

namespace Bridge.Panel;

/// <summary>How a shape is to be read and planned, as a request says it. What is not given is as in bridge plan.</summary>
/// <param name="Threshold">For a picture or a drawing: what is darker is worked, 0 to 255.</param>
/// <param name="Dither">For a picture: greys become scattered cells.</param>
/// <param name="Wide">For a drawing: strokes as wide as it says.</param>
/// <param name="Size">The longest side: cells, as 40, or mm, as 40mm.</param>
/// <param name="Height">For text: the height of a capital, cells or mm.</param>
/// <param name="Place">Where it lies: X,Y in cells or mm, or middle.</param>
/// <param name="Turn">Degrees counter-clockwise, for a mesh also about X or Y, as x90,30.</param>
/// <param name="Hollow">Walls so thick are left of what is solid, cells or mm.</param>
/// <param name="Support">Whether head b supports what would fall; default true.</param>
/// <param name="Overprint">Whether a cell may be worked twice where the machine allows it; default true.</param>
public sealed record PlanOptions(
    int? Threshold, bool? Dither, bool? Wide, string? Size, string? Height, string? Place, string? Turn, string? Hollow, bool? Support, bool? Overprint)
{
    /// <summary>The options for reading, with who is told what is left out or made good.</summary>
    /// <exception cref="RefusedException">One of them is not good.</exception>
    public ShapeOptions ForReading(Action<string> caution) => new()
    {
        Threshold = Threshold switch
        {
            null => null,
            >= 0 and <= 255 and var grey => (byte)grey,
            var other => throw Refused("threshold", $"{other}", "0 to 255"),
        },
        Dither = Dither ?? false,
        Wide = Wide ?? false,
        Size = Above0("size", Size),
        Height = Above0("height", Height),
        Hollow = Above0("hollow", Hollow),
        Place = Given(Place) is not { } place ? GridPlace.Corner
            : GridPlace.Parse(place) ?? throw Refused("place", place, "X,Y in cells or mm, as in 10,4 or 25mm,10mm, none below 0; or middle"),
        Turns = Given(Turn) is not { } turn ? []
            : Planning.Turn.ParseAll(turn) ?? throw Refused("turn", turn, "degrees from -360 to 360, after x, y or z where not about Z, with commas between"),
        Caution = caution,
    };

    private static Length? Above0(string name, string? text) => Given(text) is not { } given ? null
        : Length.TryParse(given, out var length) && length.Value > 0 ? length
        : throw Refused(name, given, "cells, as in 40, or mm, as in 40mm, above 0 and up to 1 000 000");

    private static string? Given(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    private static RefusedException Refused(string name, string found, string allowed) => new(name, found, allowed, "Change it, or leave it empty.");
}

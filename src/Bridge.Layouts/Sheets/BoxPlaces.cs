using System.Globalization;

namespace Bridge.Layouts;

/// <summary>The place of each bit as a number above its box; above narrow boxes its digits stand below one another.</summary>
internal static class BoxPlaces
{
    private const double NarrowMm = 2.2;
    private const double LineMm = 2;
    private const double Largest = 2;

    /// <summary>How high they are above boxes of a width.</summary>
    public static double HeightMm(double boxMm) => boxMm < NarrowMm ? 2 * LineMm : LineMm;

    /// <summary>The numbers; the last line stands on a base line.</summary>
    public static IEnumerable<Mark> Marks(SheetBoxes boxes, Func<int, double> at, double boxMm, double baseLine)
    {
        var isNarrow = boxMm < NarrowMm;
        var size = Math.Min(Largest, boxMm / ((isNarrow ? 1 : 2) * Page.LetterWidth) * 0.9);
        for (var box = 0; box < boxes.All.Count; box++)
        {
            var place = boxes.All[box].Place.ToString(CultureInfo.InvariantCulture);
            var lines = isNarrow ? place.Select(digit => $"{digit}").ToArray() : [place];
            for (var line = 0; line < lines.Length; line++)
                yield return new Mark.Text(at(box) + (boxMm - lines[line].Length * size * Page.LetterWidth) / 2,
                    baseLine - (lines.Length - 1 - line) * LineMm, size, lines[line]);
        }
    }
}

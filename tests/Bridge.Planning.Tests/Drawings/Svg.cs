using System.Text;
using Bridge.Jobs;

namespace Bridge.Planning.Tests;

internal static class Svg
{
    // A page of 8 x 8 units on 8 x 8 cells: a unit is a cell.
    public static readonly ShapeOptions Eight = new() { Limit = new Grid(8, 8, 1) };

    public static byte[] File(string elements, string attributes = "viewBox='0 0 8 8'") =>
        Encoding.UTF8.GetBytes($"<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' {attributes}>{elements}</svg>");

    public static Shape Read(string elements, ShapeOptions? options = null, string attributes = "viewBox='0 0 8 8'") =>
        SvgFile.Parse(File(elements, attributes), "fish.svg", options ?? Eight);

    public static string Cells(string elements, ShapeOptions? options = null, string attributes = "viewBox='0 0 8 8'") =>
        Shapes.Written(Read(elements, options, attributes));

    public static (Shape Shape, List<string> Cautions) Told(string elements, ShapeOptions? options = null)
    {
        List<string> told = [];
        return (Read(elements, (options ?? Eight) with { Caution = told.Add }), told);
    }
}

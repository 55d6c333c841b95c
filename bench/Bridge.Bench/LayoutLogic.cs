using Bridge.Layouts;

namespace Bridge.Bench;

/// <summary>How long it takes to minimise all control lines of an 8-bit opcode.</summary>
internal static class LayoutLogic
{
    public static IEnumerable<Figure> Measure()
    {
        foreach (var name in new[] { "built-in-4.toml", "relative-lines.toml" })
        {
            var layout = LayoutFile.Read(Examples.At($"examples/layouts/{name}"));
            var lines = ControlLines.Of(layout);
            yield return Figure.OfSeconds($"{lines.Lines.Count} lines of {lines.Bits.Count} bits", Goal.Below(1), 9, () => ControlLines.Of(layout));
        }
        var random = new Random(8);
        LogicFunction[] functions =
            [.. Enumerable.Range(0, 16).Select(_ => new LogicFunction(8, _ => random.Next(4) switch { 0 => true, 1 => null, _ => false }))];
        yield return Figure.OfSeconds("16 random lines of 8 bits", Goal.Below(1), 9,
            () => functions.AsParallel().ForAll(function => SumOfProducts.Least(function)));
    }
}

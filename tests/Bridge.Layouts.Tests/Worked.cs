using Bridge.Jobs;
using Bridge.Planning;

namespace Bridge.Layouts.Tests;

/// <summary>What a job works, as a shape.</summary>
internal static class Worked
{
    public static Shape By(Image image, Grid grid)
    {
        var shape = new ShapeBuilder(grid.X, grid.Y, 1, "job");
        var interpreter = new Interpreter(image, grid);
        while (interpreter.MoveNext())
            shape.Work(interpreter.Current.Cell, interpreter.Current.Layer, interpreter.Current.Head);
        Assert.Null(interpreter.Fault);
        return shape.Build();
    }

    /// <summary>Lowers, writes, reads back, decodes and proves; gives the image.</summary>
    public static LayoutImage Proved(Layout layout, IReadOnlyList<Record> records, Machine machine, Shape shape)
    {
        var bytes = LayoutLowering.Lower(layout, records, machine).ToBytes();
        var image = LayoutImage.Parse(layout, bytes, "image");
        var proof = LayoutProof.Of(image, machine);
        Assert.DoesNotContain(proof.Proof.Faults, fault => fault.Rule != JobRule.LargerThanStore);
        Assert.True(ShapeCheck.Compare(shape, By(proof.Decoded, machine.Grid)).IsNone);
        return image;
    }
}

using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Refuses a shape that a machine cannot work at all, however it is planned.</summary>
internal static class MachineFit
{
    /// <exception cref="RefusedException">Nothing is to be worked, a worked cell is off the grid, or its head is missing.</exception>
    public static void Check(Shape shape, Machine machine)
    {
        if (shape.IsEmptyEverywhere)
            throw new RefusedException("the shape", "nothing to work", "at least one worked cell", "Mark cells with A or B.");
        for (var layer = 0; layer < shape.Layers; layer++)
            CheckLayer(shape, layer, machine);
    }

    private static void CheckLayer(Shape shape, int layer, Machine machine)
    {
        var cells = shape.LayerCells(layer);
        for (var i = 0; i < cells.Length; i++)
        {
            if (Shape.HeadOf(cells[i]) is not { } head)
                continue;
            var cell = new Cell(i % shape.Width, i / shape.Width);
            var place = $"layer {layer}, cell {cell}";
            if (layer >= machine.Grid.Layers || !machine.Grid.Holds(cell))
                throw new RefusedException(place, "a cell to work", $"cells of the machine's grid, {machine.Grid}", "Make the shape smaller or take a larger machine.");
            if (machine.Tool(head) is null)
                throw new RefusedException(place, $"head {(head == Head.A ? 'a' : 'b')}", $"the heads that {machine.Name} has", "Use the other letter or a machine with two heads.");
        }
    }
}

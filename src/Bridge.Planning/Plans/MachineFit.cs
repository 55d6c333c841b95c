using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Tells a shape that a machine cannot work at all, however it is planned.</summary>
internal static class MachineFit
{
    /// <summary>Why not: nothing is to be worked, a worked cell is off the grid, or its head is missing; null where the machine can.</summary>
    public static Refusal? Refusal(Shape shape, Machine machine) => shape.IsEmptyEverywhere
        ? new Refusal("the shape", "nothing to work", "at least one worked cell", "Mark cells with A or B.")
        : Enumerable.Range(0, shape.Layers)
            .Select(layer => LayerRefusal(shape, layer, machine))
            .FirstOrDefault(refusal => refusal is not null);

    private static Refusal? LayerRefusal(Shape shape, int layer, Machine machine)
    {
        var cells = shape.LayerCells(layer);
        for (var i = 0; i < cells.Length; i++)
        {
            if (Shape.HeadOf(cells[i]) is not { } head)
                continue;
            var cell = new Cell(i % shape.Width, i / shape.Width);
            var place = $"layer {layer}, cell {cell}";
            if (layer >= machine.Grid.Layers || !machine.Grid.Holds(cell))
                return new Refusal(place, "a cell to work", $"cells of the machine's grid, {machine.Grid}",
                    "Make the shape smaller or take a larger machine.");
            if (machine.Tool(head) is null)
                return new Refusal(place, $"head {(head == Head.A ? 'a' : 'b')}", $"the heads that {machine.Name} has",
                    "Use the other letter or a machine with two heads.");
        }
        return null;
    }
}

using Bridge.Jobs;
using Bridge.Planning;

namespace Planning.Bench;

/// <summary>A layer of 16 x 16 cells, each worked with the same chance. A number always gives the same layer.</summary>
internal sealed class RandomLayer
{
    /// <summary>Cells along each side.</summary>
    public const int Side = 16;

    private static readonly int[] Fills = [20, 30, 40, 50, 60, 70, 80];

    private readonly bool[] _isWorked = new bool[Side * Side];

    /// <summary>Draws the layer of a number, 0 and up.</summary>
    public RandomLayer(int number)
    {
        Percent = Fills[number % Fills.Length];
        var random = new Random(number);
        for (var place = 0; place < _isWorked.Length; place++)
            _isWorked[place] = random.Next(100) < Percent;
    }

    /// <summary>The chance of a cell to be worked, in percent: 20 to 80.</summary>
    public int Percent { get; }

    /// <summary>Whether a cell is worked; none outside is.</summary>
    public bool this[int x, int y] => (uint)x < Side && (uint)y < Side && _isWorked[y * Side + x];

    /// <summary>The layer as a shape.</summary>
    public Shape ToShape()
    {
        var shape = new ShapeBuilder(Side, Side);
        for (var y = 0; y < Side; y++)
            for (var x = 0; x < Side; x++)
                if (this[x, y])
                    shape.Work(new Cell(x, y), 0, Head.A);
        return shape.Build();
    }
}

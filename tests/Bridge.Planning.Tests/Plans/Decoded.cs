using Bridge.Jobs;
using Record = Bridge.Jobs.Record;

namespace Bridge.Planning.Tests;

// What a job works, cell by cell, told from the fields of its records alone.
internal sealed class Decoded
{
    private static readonly (int X, int Y)[] Freeman = [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)];

    public List<(int X, int Y, int Layer, Head Head)> Worked { get; } = [];

    public List<(Record Record, int FromX, int FromY)> Gone { get; } = [];

    public int HeadChanges { get; private set; }

    public bool HasEnd { get; private set; }

    public Decoded(Plan plan)
    {
        int x = 0, y = 0, layer = 0, head = 0, places = plan.Width.Places;
        foreach (var record in Unrolled(plan))
        {
            Assert.False(HasEnd, "Nothing comes after the end.");
            Assert.All(new[] { record.X, record.Y, record.P, record.Q }, field => Assert.InRange(field, 0, places - 1));
            layer += record.Rise ? 1 : 0;
            if (record.Verb != Verb.End && (int)record.Head != head)
                (head, HeadChanges) = ((int)record.Head, HeadChanges + 1);
            switch (record.Verb)
            {
                case Verb.End:
                    Assert.Equal(default, record);
                    HasEnd = true;
                    break;
                case Verb.Go:
                    Assert.Equal((0, 0, 0), (record.P, record.Q, record.Heading));
                    Gone.Add((record, x, y));
                    (x, y) = (record.X, record.Y);
                    break;
                case Verb.Row:
                    for (var i = 0; i <= record.P * places + record.Q; i++)
                        Work(record.X + i * Freeman[record.Heading].X, record.Y + i * Freeman[record.Heading].Y);
                    break;
                case Verb.Patch:
                    Patch(record);
                    break;
                default:
                    Assert.Fail($"The planner has no use for {record.Verb}.");
                    break;
            }
        }

        void Work(int atX, int atY)
        {
            (x, y) = (atX, atY);
            Worked.Add((x, y, layer, (Head)head));
        }

        void Patch(Record record)
        {
            var (stepX, stepY) = ((record.Heading & 2) != 0 ? -1 : 1, (record.Heading & 4) != 0 ? -1 : 1);
            var rowsRunAlongY = (record.Heading & 1) != 0;
            var (rows, cells) = rowsRunAlongY ? (record.P + 1, record.Q + 1) : (record.Q + 1, record.P + 1);
            for (var row = 0; row < rows; row++)
                for (var i = 0; i < cells; i++)
                {
                    var along = row % 2 == 0 ? i : cells - 1 - i;
                    Work(record.X + stepX * (rowsRunAlongY ? row : along), record.Y + stepY * (rowsRunAlongY ? along : row));
                }
        }
    }

    // Every `again` replaced by what it repeats.
    private static List<Record> Unrolled(Plan plan)
    {
        var unrolled = new List<Record>();
        var sinceAgain = new List<Record>();
        foreach (var record in plan.Records)
        {
            if (record.Verb != Verb.Again)
            {
                sinceAgain.Add(record);
                unrolled.Add(record);
                continue;
            }
            Assert.Equal((Head.A, 0, false), (record.Head, record.Heading, record.Rise));
            var reach = record.X * plan.Width.Places + record.Y + 1;
            Assert.InRange(reach, 1, sinceAgain.Count);
            for (var times = record.P * plan.Width.Places + record.Q + 1; times > 0; times--)
                unrolled.AddRange(sinceAgain[^reach..]);
            sinceAgain.Clear();
        }
        return unrolled;
    }

    public Shape ToShape(Shape like, bool mayOverprint = false)
    {
        var shape = new ShapeBuilder(like.Width, like.Depth, like.Layers);
        foreach (var (x, y, layer, head) in Worked)
            Assert.True(shape.Work(new Cell(x, y), layer, head) || mayOverprint, $"({x}, {y}) on layer {layer} is worked twice.");
        return shape.Build();
    }
}

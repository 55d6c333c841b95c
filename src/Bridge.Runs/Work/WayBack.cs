using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>
/// The records that take a machine from home, (0, 0) on layer 0, to a place of a job: up layer by layer over home, then what is left of the
/// record that was begun, cell by cell as it would have been worked.
/// </summary>
internal static class WayBack
{
    public static IReadOnlyList<Pass> To(JobPlace place, Image image, Grid grid)
    {
        var reader = new PassReader(image, grid);
        if (place == JobPlace.Beginning || !TryFind(reader, place.Records, out var begun))
            return [];
        var records = new List<Record>();
        var layer = place.Cells > 0 ? begun.Entry.Layer : begun.Before.Layer;
        for (var risen = 0; risen < layer; risen++)
            records.Add(Record.Go(begun.Entry.Head, new Cell(0, 0), rise: true));
        var next = begun;
        if (place.Cells > 0)
        {
            records.AddRange(Rest(begun, place.Cells, image.Width));
            if (!reader.TryNext(out next))
                return Played(records, image.Width);
        }

        // A line begins where the machine stands, also where it stood in a wait before; all else says itself where it begins.
        if (next.Record.Verb is Verb.Line or Verb.Wait)
            records.Add(Record.Go(next.Entry.Head, next.Before.Cell));
        return Played(records, image.Width);
    }

    private static bool TryFind(PassReader reader, long index, out Pass pass)
    {
        while (reader.TryNext(out pass))
            if (index-- == 0)
                return true;
        return false;
    }

    private static IEnumerable<Record> Rest(Pass begun, long cellsDone, RecordWidth width)
    {
        var cells = new List<Cell>();
        foreach (var cell in begun.Work)
            if (cellsDone-- <= 0)
                cells.Add(cell);
        for (var first = 0; first < cells.Count;)
        {
            var count = Straight(cells, first, out var heading);
            yield return Record.Row(width, begun.Entry.Head, cells[first], heading, count);
            first += count;
        }
    }

    // How many cells from one on lie in a straight row of neighbours.
    private static int Straight(List<Cell> cells, int first, out int heading)
    {
        heading = 0;
        if (first + 1 == cells.Count)
            return 1;
        var (dx, dy) = (cells[first + 1].X - cells[first].X, cells[first + 1].Y - cells[first].Y);
        heading = Enumerable.Range(0, 8).Single(each => Heading.Dx(each) == dx && Heading.Dy(each) == dy);
        var last = first + 1;
        while (last + 1 < cells.Count && (cells[last + 1].X - cells[last].X, cells[last + 1].Y - cells[last].Y) == (dx, dy))
            last++;
        return last - first + 1;
    }

    private static List<Pass> Played(List<Record> records, RecordWidth width)
    {
        var passes = new List<Pass>();
        var position = new Position(new Cell(0, 0), 0, Head.A);
        foreach (var record in records)
        {
            var pass = PassReader.PassOf(width, passes.Count, record, position);
            passes.Add(pass);
            position = pass.After;
        }

        return passes;
    }
}

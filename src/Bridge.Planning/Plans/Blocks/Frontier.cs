namespace Bridge.Planning;

/// <summary>
/// What the cells still to come need to know of those labelled: for each row the label last put there (3 bits, without
/// whether it is joined left), the label that row had before in the row below (3 bits), and whether the cell below is
/// joined left (1 bit).
/// </summary>
internal readonly record struct Frontier(ulong Bits)
{
    private const int Passed = 54; // where the label of the cell down left is kept
    private const int BelowIsJoinedLeft = 57;

    /// <summary>With the label of a row set; rows 0 to 17.</summary>
    public Frontier With(int row, CellLabel label) => new(Bits & ~(7UL << (3 * row)) | (ulong)Seen(label) << (3 * row));

    /// <summary>Whether a label may be put on a row, after those of the rows below.</summary>
    public bool Allows(int row, CellLabel label, bool isKept)
    {
        var left = At(row);
        var isRectangle = label >= CellLabel.Rectangle;
        var joins = isRectangle ? (int)label & 3 : 0;
        if ((joins & 1) != 0 && (left < CellLabel.Rectangle || ((int)left & 2) != (joins & 2)))
            return false;
        if (row == 0)
            return isKept || joins < 2; // what is kept may be joined with a row that is not looked at
        var belowIsJoinedLeft = (Bits >> BelowIsJoinedLeft & 1) != 0;
        if ((joins & 2) != 0 && (At(row - 1) < CellLabel.Rectangle || belowIsJoinedLeft != ((joins & 1) != 0)))
            return false;
        // A rectangle that goes on to the right of the cell below must do so here too.
        return !belowIsJoinedLeft || left != CellLabel.JoinedBelow || joins == 3;
    }

    /// <summary>1 where a label on a row begins a block, else 0.</summary>
    public int Cost(int row, int topRow, CellLabel label) => label switch
    {
        CellLabel.Rises => row > 0 && (CellLabel)(Bits >> Passed & 7) == CellLabel.Rises ? 0 : 1,
        CellLabel.Falls => row < topRow && At(row + 1) == CellLabel.Falls ? 0 : 1,
        CellLabel.Rectangle => 1,
        _ => 0,
    };

    /// <summary>The frontier after a label was put on a row.</summary>
    public Frontier Put(int row, CellLabel label)
    {
        var passed = (ulong)At(row);
        var bits = With(row, label).Bits & ((1UL << Passed) - 1);
        var isJoinedLeft = label >= CellLabel.Rectangle && ((int)label & 1) != 0;
        return new Frontier(bits | passed << Passed | (isJoinedLeft ? 1UL : 0) << BelowIsJoinedLeft);
    }

    /// <summary>The frontier at the top of a column: labels that cannot go on in the next one, whose worked rows are bits, are dropped.</summary>
    public Frontier Closed(int rows, int next)
    {
        var closed = new Frontier();
        for (var row = 0; row < rows;)
        {
            var end = row + 1;
            var label = At(row);
            switch (label)
            {
                case CellLabel.Rises when row + 1 < rows && (next >> (row + 1) & 1) != 0:
                case CellLabel.Falls when row > 0 && (next >> (row - 1) & 1) != 0:
                    closed = closed.With(row, label);
                    break;
                case >= CellLabel.Rectangle:
                    while (end < rows && At(end) == CellLabel.JoinedBelow)
                        end++;
                    var run = (1 << end) - (1 << row);
                    if ((next & run) == run)
                        for (var of = row; of < end; of++)
                            closed = closed.With(of, At(of));
                    break;
            }
            row = end;
        }
        return closed;
    }

    /// <summary>How many blocks could go on in the next column.</summary>
    public int Offers()
    {
        var offers = 0;
        for (var bits = Bits & ((1UL << Passed) - 1); bits != 0; bits >>= 3)
            offers += (CellLabel)(bits & 7) is CellLabel.Rises or CellLabel.Falls or CellLabel.Rectangle ? 1 : 0;
        return offers;
    }

    /// <summary>How many of those another frontier lacks.</summary>
    public int OffersNotIn(Frontier other)
    {
        var lacking = 0;
        for (int row = 0, end; 3 * row < Passed; row = end)
        {
            end = row + 1;
            var label = At(row);
            if (label == CellLabel.Empty)
                continue;
            if (label >= CellLabel.Rectangle)
                while (3 * end < Passed && At(end) == CellLabel.JoinedBelow)
                    end++;
            var rows = (1UL << (3 * end)) - (1UL << (3 * row));
            var isSame = ((Bits ^ other.Bits) & rows) == 0
                && (label < CellLabel.Rectangle || 3 * end == Passed || other.At(end) != CellLabel.JoinedBelow);
            lacking += isSame ? 0 : 1;
        }
        return lacking;
    }

    private CellLabel At(int row) => (CellLabel)(Bits >> (3 * row) & 7);

    private static CellLabel Seen(CellLabel label) => label >= CellLabel.Rectangle ? label & CellLabel.JoinedBelow : label;
}

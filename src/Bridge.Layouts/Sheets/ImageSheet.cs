using System.Globalization;
using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>An image on paper: a row for each record, to set by hand or to punch, with its address, its bits, a check digit and a box to tick.</summary>
/// <param name="Title">What it is, in its head.</param>
/// <param name="Boxes">The boxes of a record.</param>
/// <param name="Bytes">Whole records, up to 65 536 bytes.</param>
public sealed record ImageSheet(string Title, SheetBoxes Boxes, ReadOnlyMemory<byte> Bytes)
{
    /// <summary>The most bytes that have an address: 65 536.</summary>
    public const int MostBytes = 65_536;

    private const int RowsOfPage = 38;
    private const double Left = 15;
    private const double BitsAt = 31;
    private const double BitsWidth = 100;
    private const double HeadEnds = 37.4;
    private const double RowMm = 5.8;
    private const double Small = 2.6;

    private readonly FieldNames _names = FieldNames.Above(Boxes, BoxAt(Boxes.RecordBytes));

    /// <summary>Bytes of a record, 1 to 8.</summary>
    public int RecordBytes => Boxes.RecordBytes;

    /// <summary>Rows of the sheet.</summary>
    public int Rows => Bytes.Length / RecordBytes;

    /// <summary>Its pages.</summary>
    /// <exception cref="RefusedException">The image has no record, or more bytes than addresses.</exception>
    public IReadOnlyList<Page> Pages()
    {
        if (Rows == 0 || Bytes.Length > MostBytes)
            throw new RefusedException(Title, $"{Bytes.Length} bytes", $"one record to {MostBytes} bytes",
                "A sheet is for a store that is set by hand: take a smaller job.");
        var pages = (Rows + RowsOfPage - 1) / RowsOfPage;
        return [.. Enumerable.Range(0, pages).Select(page => new Page([.. Head(page, pages), .. PageRows(page).SelectMany(RowOf)]))];
    }

    private double BitMm => BoxWidth(RecordBytes);

    private static double BoxWidth(int recordBytes) => Math.Min(4.4, (BitsWidth - 2 * (recordBytes - 1)) / (8 * recordBytes));

    private static Func<int, double> BoxAt(int recordBytes) => box => BitsAt + box * BoxWidth(recordBytes) + box / 8 * 2;

    // The first row's upper side.
    private double Top => HeadEnds + _names.HeightMm + BoxPlaces.HeightMm(BitMm) + 0.8;

    private double HexAt => BitsAt + 8 * RecordBytes * BitMm + 2 * (RecordBytes - 1) + 4;

    private IEnumerable<int> PageRows(int page) => Enumerable.Range(page * RowsOfPage, Math.Min(RowsOfPage, Rows - page * RowsOfPage));

    private IEnumerable<Mark> Head(int page, int pages)
    {
        yield return new Mark.Text(Left, 16, 5, Cut(Title, 44), IsBold: true);
        yield return new Mark.Text(Left + 150, 16, 3, $"page {page + 1} of {pages}");
        yield return new Mark.Text(Left, 21.2, Small, FormattableString.Invariant(
            $"{Rows} records of {RecordBytes} bytes, {Bytes.Length} bytes. Set each row, a dark box is 1, and tick it. Addresses are hexadecimal."));
        yield return new Mark.Text(Left, 24.8, Small, "To check what was set, type each row in as ADDRESS: BITS CHECK, or its bytes in hexadecimal, such as");
        yield return new Mark.Text(Left, 28.4, Small, $"{Address(0)}: {BitsOf(0)} {Check(0)}");
        yield return new Mark.Text(Left, 32, Small, $"Above the boxes: each bit's field and place; {Boxes.HowCounted}.");
        foreach (var (at, word) in new[] { (Left, "address"), (BitsAt, "bits"), (HexAt, "bytes"), (HexAt + HexWidth + 3, "check"),
            (HexAt + HexWidth + 14, "set") })
            yield return new Mark.Text(at, HeadEnds - 1.2, Small, word, IsBold: true);
        yield return new Mark.Rule(Left, HeadEnds, Left + 180, HeadEnds);
        foreach (var mark in _names.Marks(HeadEnds + _names.HeightMm, Top).Concat(BoxPlaces.Marks(Boxes, BoxAt(RecordBytes), BitMm, Top - 0.8)))
            yield return mark;
    }

    private double HexWidth => (3 * RecordBytes - 1) * 3 * Page.LetterWidth;

    private IEnumerable<Mark> RowOf(int row)
    {
        var y = Top + row % RowsOfPage * RowMm;
        var baseLine = y + 3.6;
        yield return new Mark.Text(Left, baseLine, 3, Address(row));
        var record = Bytes.Slice(row * RecordBytes, RecordBytes);
        for (var bit = 0; bit < 8 * RecordBytes; bit++)
        {
            var isSet = (record.Span[bit / 8] >> 7 - bit % 8 & 1) == 1;
            var x = BoxAt(RecordBytes)(bit);
            yield return new Mark.Box(x, y, BitMm, 5, isSet);
            var size = Math.Min(3, BitMm);
            yield return new Mark.Text(x + (BitMm - size * Page.LetterWidth) / 2, baseLine, size, isSet ? "1" : "0");
        }
        yield return new Mark.Text(HexAt, baseLine, 3, string.Join(' ', record.ToArray().Select(octet => $"{octet:X2}")));
        yield return new Mark.Text(HexAt + HexWidth + 3, baseLine, 3.4, Check(row), IsBold: true);
        yield return new Mark.Box(HexAt + HexWidth + 14, y + 0.4, 4, 4);
        if (row % 4 == 3)
            yield return new Mark.Rule(Left, y + RowMm - 0.6, Left + 180, y + RowMm - 0.6);
    }

    private string Address(int row) => (row * RecordBytes).ToString("X4", CultureInfo.InvariantCulture);

    private string BitsOf(int row) => string.Join(' ', Bytes.Slice(row * RecordBytes, RecordBytes).ToArray().Select(octet => $"{octet:b8}"));

    private string Check(int row) => $"{CheckDigit.Of(row * RecordBytes, Bytes.Span.Slice(row * RecordBytes, RecordBytes)):X}";

    private static string Cut(string text, int letters) => text.Length <= letters ? text : text[..(letters - 3)] + "...";
}

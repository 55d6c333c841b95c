using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>What is wrong with typed rows, in the order of their addresses; held against a job where one is given, which then says which bits differ.</summary>
internal sealed class TypedFaults(string name, PlacedRows placed, int recordBytes, byte[]? job)
{
    public IEnumerable<Refusal> All()
    {
        var due = 0;
        foreach (var (address, row) in placed.Rows)
        {
            if (address > due)
                yield return Missing(due, address - recordBytes);
            foreach (var refusal in Wrong(row, address))
                yield return refusal;
            due = address + recordBytes;
        }
        if (job is not null && due + recordBytes <= job.Length)
            yield return Missing(due, job.Length / recordBytes * recordBytes - recordBytes);
        foreach (var (address, row) in placed.Twice)
            yield return new Refusal(Place(row, address), $"row {address:X4} a second time", "each row once", "Take one of the two out.");
    }

    private Refusal Missing(int first, int last) => new($"{name}, {PlaceOf(first)}", "nothing",
        first == last ? JobRow(first) is { } bits ? $"{TypedRow.BitsOf(bits)}, as the job has it" : "a row for each record"
            : $"{(last - first) / recordBytes + 1} rows",
        first == last ? $"Row {first:X4} is missing: type it in." : $"Rows {first:X4} to {last:X4} are missing: type them in.");

    private IEnumerable<Refusal> Wrong(TypedRow row, int address)
    {
        var place = Place(row, address);
        if (row.Bytes is null)
        {
            yield return new Refusal(place, $"\"{row.Text}\"", $"{8 * recordBytes} bits or {2 * recordBytes} hexadecimal digits, then a check digit",
                "Type the row again: a digit is missing, too many, or no digit."
                + (JobRow(address) is { } whole ? $" The job has {TypedRow.BitsOf(whole)}." : ""));
            yield break;
        }
        if (row.HasAddress && row.Address != address)
            yield return new Refusal(place, $"the address {row.AddressText}", $"{address:X4}", "The address is wrong, or the row is in the wrong place.");
        if ((job is null ? Alone(row, address, place) : Beside(row, address, place, job)) is { } refusal)
            yield return refusal;
    }

    private Refusal? Alone(TypedRow row, int address, string place) => row.Fits(address) ? null
        : placed.RowThatIs(row, address) is { } other ? OtherRow(row, address, other, place)
        : new Refusal(place, row.Shown, $"a row whose check digit is the sheet's; these bits have {CheckDigit.Of(address, row.Bytes):X}",
            $"The row is wrong: compare it with the sheet bit by bit. {row.Guess(address)}");

    private Refusal? Beside(TypedRow row, int address, string place, byte[] whole)
    {
        if (JobRow(address) is not { } right)
            return new Refusal(place, row.Shown, "nothing: the job has ended", "Take the row out, or take the right job.");
        var differing = Enumerable.Range(0, 8 * recordBytes).Where(bit => ((row.Bytes![bit / 8] ^ right[bit / 8]) >> 7 - bit % 8 & 1) == 1)
            .Select(bit => bit + 1).ToList();
        if (differing.Count == 0)
            return row.Fits(address) ? null
                : new Refusal(place, row.Shown, $"check digit {CheckDigit.Of(address, right):X}", "The bits are the job's: only the digit is wrong.");
        for (var other = 0; other + recordBytes <= whole.Length; other += recordBytes)
            if (row.Fits(other) && row.Bytes.AsSpan().SequenceEqual(JobRow(other)))
                return OtherRow(row, address, other, place);
        return new Refusal(place, row.Shown, $"{TypedRow.BitsOf(right)}, as the job has it",
            $"{(differing.Count == 1 ? "This bit differs" : "These bits differ")}, counted from the left: {string.Join(", ", differing)}. "
            + "Set and type that row again.");
    }

    private static Refusal OtherRow(TypedRow row, int address, int other, string place) => new(place, row.Shown, $"row {address:X4}",
        $"This is row {other:X4}: its bits and its check digit are right there. Type each row in its own place.");

    private byte[]? JobRow(int address) => job is not null && address + recordBytes <= job.Length ? job[address..(address + recordBytes)] : null;

    private string Place(TypedRow row, int address) => $"{name}, line {row.Line}, {PlaceOf(address)}";

    private string PlaceOf(int address) => $"row {address / recordBytes + 1} (address {address:X4})";
}

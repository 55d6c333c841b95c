using System.Globalization;

namespace Planning.Bench;

/// <summary>Prints aligned columns.</summary>
internal static class Table
{
    /// <summary>Prints one line of a table.</summary>
    public static void Print(params string[] columns) => Console.WriteLine(string.Join(' ', columns.Select(column => column.PadLeft(11))));

    /// <summary>A number with two places behind the point.</summary>
    public static string Number(double value) => value.ToString("0.00", CultureInfo.InvariantCulture);
}

using System.Globalization;
using Tomlyn.Syntax;

namespace Bridge.Jobs;

/// <summary>How a message names what stands in a file.</summary>
internal static class MachineFileFound
{
    public static string Describe(ValueSyntax value) => value switch
    {
        StringValueSyntax text => MachineFileText.Quote(text.Value ?? ""),
        IntegerValueSyntax integer => integer.Value.ToString(CultureInfo.InvariantCulture),
        FloatValueSyntax number => Describe(number.Value),
        BooleanValueSyntax truth => truth.Value ? "true" : "false",
        ArraySyntax list => $"[{string.Join(", ", Items(list))}]",
        InlineTableSyntax => "a table",
        _ => "a date or a time",
    };

    private static string Describe(double number)
    {
        if (double.IsNaN(number)) return "nan";
        if (double.IsInfinity(number)) return number > 0 ? "inf" : "-inf";

        var digits = number.ToString("R", CultureInfo.InvariantCulture);
        return digits.AsSpan().ContainsAny('.', 'E') ? digits : $"{digits}.0";
    }

    private static IEnumerable<string> Items(ArraySyntax list)
    {
        const int most = 3;
        var shown = list.Items.Take(most).Select(item => item.Value switch
        {
            null => "",
            ArraySyntax => "a list",
            var value => Describe(value),
        });
        return list.Items.ChildrenCount > most ? shown.Append("...") : shown;
    }
}

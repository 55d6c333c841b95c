using System.Globalization;
using System.Text;
using Tomlyn.Syntax;

namespace Bridge.Jobs;

/// <summary>What may stand at a key, and how it is read.</summary>
internal abstract class MachineFileValue<T>
{
    /// <summary>What is allowed, with range and unit, as messages and documents put it.</summary>
    public abstract string Allowed { get; }

    /// <summary>Reads a value; false where it is not allowed.</summary>
    public abstract bool TryRead(ValueSyntax value, out T result);

    /// <summary>What to do about a value that is not allowed.</summary>
    public abstract string Remedy(ValueSyntax value);
}

/// <summary>A whole number within a range.</summary>
internal sealed class MachineFileInteger(int min, int max, string unit) : MachineFileValue<int>
{
    public override string Allowed => $"integer, {min} to {max} {unit}";

    public override bool TryRead(ValueSyntax value, out int result)
    {
        var number = value is IntegerValueSyntax integer ? integer.Value : long.MinValue;
        var good = number >= min && number <= max;
        result = good ? (int)number : 0;
        return good;
    }

    public override string Remedy(ValueSyntax value) => value switch
    {
        IntegerValueSyntax => "Write a number in the range.",
        FloatValueSyntax => "Write it without a decimal point.",
        _ => "Write a whole number, without quotes.",
    };
}

/// <summary>The one format that is read.</summary>
internal sealed class MachineFileFormat(int format) : MachineFileValue<int>
{
    public override string Allowed => $"{format}";

    public override bool TryRead(ValueSyntax value, out int result)
    {
        result = format;
        return value is IntegerValueSyntax integer && integer.Value == format;
    }

    public override string Remedy(ValueSyntax value) => value is IntegerValueSyntax
        ? "Use a program that reads this format, or write the file anew."
        : "Write a whole number, without quotes.";
}

/// <summary>A finite number within a range, whole or not.</summary>
internal sealed class MachineFileNumber(double min, double max, string unit, bool aboveMin = false) : MachineFileValue<double>
{
    public override string Allowed => aboveMin
        ? Invariant($"number, above {min} and at most {max} {unit}")
        : Invariant($"number, {min} to {max} {unit}");

    public override bool TryRead(ValueSyntax value, out double result)
    {
        result = value switch
        {
            IntegerValueSyntax integer => integer.Value,
            FloatValueSyntax number => number.Value,
            _ => double.NaN,
        };
        // Comparisons with NaN are false, so it is never within the range.
        return result <= max && (aboveMin ? result > min : result >= min);
    }

    public override string Remedy(ValueSyntax value) => value is IntegerValueSyntax or FloatValueSyntax
        ? $"Write a number in the range, in {unit}."
        : "Write a number, without quotes.";

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>Two numbers, along X and along Y.</summary>
internal sealed class MachineFilePair(double min, double max, string unit) : MachineFileValue<(double X, double Y)>
{
    private readonly MachineFileNumber _number = new(min, max, unit);

    public override string Allowed => string.Create(CultureInfo.InvariantCulture, $"[x, y], each {min} to {max} {unit}");

    public override bool TryRead(ValueSyntax value, out (double X, double Y) result)
    {
        result = default;
        if (value is not ArraySyntax { Items.ChildrenCount: 2 } list) return false;
        if (list.Items.GetChild(0)?.Value is not { } first || list.Items.GetChild(1)?.Value is not { } second) return false;

        return _number.TryRead(first, out result.X) & _number.TryRead(second, out result.Y);
    }

    public override string Remedy(ValueSyntax value) => "Write two numbers in square brackets, such as [12.5, 0].";
}

/// <summary>One of a few words or whole numbers, each of which means something.</summary>
internal sealed class MachineFileChoice<T>(params (string Text, T Meaning)[] choices) : MachineFileValue<T>
{
    private readonly string[] _texts = [.. choices.Select(c => c.Text)];

    public override string Allowed => $"{string.Join(", ", _texts[..^1])} or {_texts[^1]}";

    public override bool TryRead(ValueSyntax value, out T result)
    {
        var index = Array.IndexOf(_texts, MachineFileFound.Describe(value));
        result = index < 0 ? default! : choices[index].Meaning;
        return index >= 0;
    }

    public override string Remedy(ValueSyntax value)
    {
        var found = MachineFileFound.Describe(value);
        if (_texts.Contains(found.Trim('"'))) return "Write it without quotes.";
        return MachineFileSpelling.Nearest(found, _texts) is { } near ? $"Did you mean {near}?" : "Write one of them.";
    }
}

/// <summary>A name that people read.</summary>
internal sealed class MachineFileName(int longest) : MachineFileValue<string>
{
    public override string Allowed => $"text, 1 to {longest} characters that show, no space at its ends";

    public override bool TryRead(ValueSyntax value, out string result)
    {
        result = (value as StringValueSyntax)?.Value ?? "";
        var runes = result.EnumerateRunes().ToList();
        return runes.Count >= 1 && runes.Count <= longest && runes.TrueForAll(MachineFileText.IsPlain)
            && !Rune.IsWhiteSpace(runes[0]) && !Rune.IsWhiteSpace(runes[^1]);
    }

    public override string Remedy(ValueSyntax value) =>
        value is StringValueSyntax ? "Choose another name." : "Write the name in quotes.";
}

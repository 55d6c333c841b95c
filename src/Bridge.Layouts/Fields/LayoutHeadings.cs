using Bridge.Jobs;
using Tomlyn.Syntax;

namespace Bridge.Layouts;

/// <summary>A list of Freeman's headings, each once.</summary>
internal sealed class LayoutHeadings : MachineFileValue<IReadOnlyList<int>?>
{
    public override string Allowed => "a list of 1 to 8 headings, each 0 to 7 and there once, such as [0, 2, 4, 6]";

    public override bool TryRead(ValueSyntax value, out IReadOnlyList<int>? result)
    {
        result = null;
        if (value is not ArraySyntax { Items.ChildrenCount: >= 1 and <= Heading.Count } list)
            return false;
        var numbers = list.Items.Select(item => item.Value is IntegerValueSyntax { Value: >= 0 and < Heading.Count } number ? (int)number.Value : -1).ToList();
        result = numbers;
        return !numbers.Contains(-1) && numbers.Distinct().Count() == numbers.Count;
    }

    public override string Remedy(ValueSyntax value) => "Write Freeman's numbers: 0 is +X, then counter-clockwise by 45 degrees.";
}

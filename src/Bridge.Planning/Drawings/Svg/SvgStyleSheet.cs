using System.Buffers;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Bridge.Planning;

/// <summary>The rules of a drawing's style elements that name elements, classes or ids; other selectors are told of and left out.</summary>
internal sealed partial class SvgStyleSheet
{
    private const int MostRules = 10_000;
    private const int MostOfRule = 40;

    private static readonly SearchValues<char> Joined = SearchValues.Create(" >+~:[@\t\n");

    private readonly ILookup<string, Rule> _rules; // by the class, the id or the name that must be there

    private SvgStyleSheet(IEnumerable<Rule> rules) => _rules = rules.ToLookup(rule => rule.Key);

    /// <summary>The rules of all style elements of a document.</summary>
    public static SvgStyleSheet Of(XElement root, SvgCautions cautions)
    {
        List<Rule> rules = [];
        foreach (var style in root.DescendantsAndSelf().Where(element => SvgDocument.IsSvg(element, "style")))
            Read(Comment().Replace(style.Value, " "), rules, cautions);
        return new SvgStyleSheet(rules);
    }

    /// <summary>The declarations of a style attribute or of a rule.</summary>
    public static IEnumerable<(string Name, string Value)> Declarations(string text)
    {
        foreach (var declaration in text.Split(';'))
            if (declaration.IndexOf(':', StringComparison.Ordinal) is > 0 and var colon)
                yield return (declaration[..colon].Trim(), declaration[(colon + 1)..].Replace("!important", "", StringComparison.Ordinal).Trim());
    }

    /// <summary>What the rules declare for an element, the weakest first.</summary>
    public IEnumerable<(string Name, string Value)> Of(XElement element)
    {
        if (_rules.Count == 0)
            return [];
        var name = SvgDocument.LocalName(element) ?? "";
        var classes = (element.Attribute("class")?.Value ?? "").Split([' ', '\t', '\r', '\n'], StringSplitOptions.RemoveEmptyEntries);
        string[] keys = ["*", name, .. classes.Distinct().Select(word => "." + word), "#" + element.Attribute("id")?.Value];
        return keys.SelectMany(key => _rules[key]).Where(rule => rule.Element is null || rule.Element == name)
            .OrderBy(rule => rule.Weight).ThenBy(rule => rule.Order).SelectMany(rule => rule.Body);
    }

    private static void Read(string text, List<Rule> rules, SvgCautions cautions)
    {
        for (var at = 0; at < text.Length && rules.Count < MostRules;)
        {
            var open = text.IndexOf('{', at);
            var close = open < 0 ? -1 : text.IndexOf('}', open);
            if (close < 0)
                return;
            var body = Declarations(text[(open + 1)..close]).Where(said => SvgStyle.Names.Contains(said.Name)).Take(MostOfRule).ToList();
            foreach (var selector in text[at..open].Split(','))
                if (Parse(selector.Trim(), body, rules.Count) is { } rule)
                    rules.Add(rule);
                else if (!string.IsNullOrWhiteSpace(selector))
                    cautions.DrawnWithout("a style rule that is not for an element, a class or an id");
            at = close + 1;
        }
    }

    private static Rule? Parse(string selector, IReadOnlyList<(string Name, string Value)> body, int order)
    {
        if (selector.Length == 0 || selector.AsSpan().ContainsAny(Joined))
            return null;
        var mark = selector.LastIndexOfAny(['.', '#']);
        if (mark < 0)
            return new Rule(selector, null, selector == "*" ? 0 : 1, order, body);
        var element = selector[..mark] is "" or "*" ? null : selector[..mark];
        return element is not null && element.AsSpan().ContainsAny(".#")
            ? null
            : new Rule(selector[mark..], element, (selector[mark] == '#' ? 100 : 10) + (element is null ? 0 : 1), order, body);
    }

    [GeneratedRegex(@"/\*.*?(?:\*/|$)", RegexOptions.Singleline)]
    private static partial Regex Comment();

    private sealed record Rule(string Key, string? Element, int Weight, int Order, IReadOnlyList<(string Name, string Value)> Body);
}

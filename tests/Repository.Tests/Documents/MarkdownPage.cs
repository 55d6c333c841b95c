using System.Text.RegularExpressions;

namespace Repository.Tests;

/// <summary>What the tests need of a Markdown page: its links, the anchors of its headings, its lines of code.</summary>
internal sealed partial class MarkdownPage
{
    private readonly List<string> _prose = [];
    private readonly List<string> _code = [];

    public MarkdownPage(string text)
    {
        var isFenced = false;
        foreach (var line in text.ReplaceLineEndings("\n").Split('\n'))
        {
            if (line.TrimStart().StartsWith("```", StringComparison.Ordinal))
                isFenced = !isFenced;
            else if (isFenced || line.StartsWith("    ", StringComparison.Ordinal))
                _code.Add(line.Trim());
            else
                _prose.Add(line);
        }
    }

    /// <summary>Where its links and pictures lead, as written.</summary>
    public IEnumerable<string> Links => _prose.Select(line => InlineCode().Replace(line, ""))
        .SelectMany(line => InlineLink().Matches(line).Concat(LinkDefinition().Matches(line)))
        .Select(match => match.Groups["target"].Value.Trim('<', '>'));

    /// <summary>The anchors of its headings: lower case, no punctuation, hyphens for spaces; one that comes again is numbered.</summary>
    public IReadOnlySet<string> Anchors
    {
        get
        {
            var anchors = new HashSet<string>();
            foreach (var heading in _prose.Select(line => Heading().Match(line)).Where(match => match.Success))
            {
                var anchor = NotInAnchor().Replace(heading.Groups["text"].Value.Trim().ToLowerInvariant(), "").Replace(' ', '-');
                var numbered = anchor;
                for (var count = 1; !anchors.Add(numbered); count++)
                    numbered = $"{anchor}-{count}";
            }

            return anchors;
        }
    }

    /// <summary>Lines of code that begin with some text; a line that ends with a backslash goes on in the next.</summary>
    public IEnumerable<string> Code(string start) => string.Join('\n', _code).Replace("\\\n", " ").Split('\n')
        .Where(line => line.StartsWith(start, StringComparison.Ordinal));

    [GeneratedRegex("`[^`]*`")]
    private static partial Regex InlineCode();

    [GeneratedRegex(@"\]\((?<target><[^>]*>|[^)\s]+)[^)]*\)")]
    private static partial Regex InlineLink();

    [GeneratedRegex(@"^ {0,3}\[[^\]]+\]:\s+(?<target>\S+)")]
    private static partial Regex LinkDefinition();

    [GeneratedRegex(@"^#{1,6}\s+(?<text>.*?)\s*#*$")]
    private static partial Regex Heading();

    [GeneratedRegex(@"[^\w\- ]")]
    private static partial Regex NotInAnchor();
}

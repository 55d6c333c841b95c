using System.CommandLine;

namespace Bridge.Cli;

/// <summary>What is wrong with a command line, in the form of every other refusal: what it is about, what was found, what is allowed.</summary>
internal static class Mistakes
{
    private const string OwnForm = ": found ";

    /// <summary>One at least, for words that do not parse.</summary>
    public static IReadOnlyList<string> Of(ParseResult parsed)
    {
        var command = parsed.CommandResult.Command;
        var own = parsed.Errors.Select(error => error.Message).Where(message => message.Contains(OwnForm, StringComparison.Ordinal));
        List<string> mistakes = [.. OfWords(parsed, command), .. command.Arguments.SelectMany(argument => OfArgument(parsed, argument)),
            .. command.Options.SelectMany(option => OfOption(parsed, option)), .. own];
        return [.. (mistakes.Count > 0 ? mistakes : parsed.Errors.Select(error => error.Message)).Distinct()];
    }

    private static IEnumerable<string> OfWords(ParseResult parsed, Command command)
    {
        const int MostWords = 5;
        var known = command.Subcommands.Where(sub => !sub.Hidden).Select(sub => sub.Name).ToList();
        var allowed = known.Count > 0 ? $"one of {string.Join(", ", known)}"
            : command.Arguments.Count > 0 ? $"{string.Join(' ', command.Arguments.Select(argument => argument.Name))} and options"
            : "options";
        foreach (var word in parsed.UnmatchedTokens.Take(MostWords))
        {
            yield return $"{Shown.Of(word)}{OwnForm}where nothing of that name is known; allowed: {allowed}.";
            if (NearWord.To(word, command) is { } near)
                yield return $"For {Shown.Of(word)}: was {near} meant?";
        }

        if (known.Count > 0 && parsed.UnmatchedTokens.Count == 0)
            yield return $"{command.Name}{OwnForm}nothing after it; allowed: {allowed}.";
    }

    private static IEnumerable<string> OfArgument(ParseResult parsed, Argument argument)
    {
        if (argument is { Arity.MinimumNumberOfValues: > 0, HasDefaultValue: false } && parsed.GetResult(argument) is not { Tokens.Count: > 0 })
            yield return $"{argument.Name}{OwnForm}nothing; allowed: one. {argument.Description}";
    }

    private static IEnumerable<string> OfOption(ParseResult parsed, Option option)
    {
        var given = parsed.GetResult(option);
        if (given is null or { Implicit: true } && option.Required)
            yield return $"{option.Name}{OwnForm}nothing; allowed: {option.HelpName}. {option.Description}";
        else if (given is { Implicit: false } && given.Tokens.Count < option.Arity.MinimumNumberOfValues)
            yield return $"{option.Name}{OwnForm}nothing after it; allowed: {option.HelpName}. {option.Description}";
        else if (given is not null && given.Tokens.Count > option.Arity.MaximumNumberOfValues)
            yield return $"{option.Name}{OwnForm}{string.Join(' ', given.Tokens.Select(token => Shown.Of(token.Value)))}; allowed: "
                + (option.Arity.MaximumNumberOfValues == 0 ? "no value: it is there or not." : $"{option.HelpName}, once.");
    }
}

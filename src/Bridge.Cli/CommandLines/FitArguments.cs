using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>The options that let a shape be changed until its job fits.</summary>
internal sealed class FitArguments
{
    private static readonly Dictionary<string, FitChanges> Words =
        Enum.GetValues<FitChanges>().Where(change => change != FitChanges.None).ToDictionary(change => change.ToString().ToLowerInvariant());

    private readonly Option<FitChanges> _fit = new("--fit")
    {
        Description = "Where the job does not fit the store, look for the least change to the shape with which it does, show it, and write that job. "
            + "LIST says what may be changed, such as turn,even: turn (about Z), lay (on another face), grey (another threshold), "
            + "solid (closed hollows filled), hollow, even (nearly equal layers made equal), smooth (single cells and short runs), size (smaller), "
            + "or all of these, as without a LIST.",
        HelpName = "LIST",
        Arity = ArgumentArity.ZeroOrOne,
        CustomParser = Parse,
    };

    private readonly Option<long?> _cells = new("--fit-cells")
    {
        Description = "With --fit: how many cells may change at most; a twentieth of those that the shape works if not given. Turning and laying change none, "
            + "and a smaller size is not held to it.",
        HelpName = "N",
        CustomParser = written =>
        {
            if (long.TryParse(written.Tokens[0].Value, NumberStyles.None, CultureInfo.InvariantCulture, out var cells) && cells <= Shape.MaxCells)
                return cells;
            written.AddError($"--fit-cells: found {Shown.Of(written.Tokens[0].Value)}; allowed: 0 to {Shape.MaxCells}.");
            return null;
        },
    };

    private readonly Option<string> _shape = Arguments.File("--fit-shape", "FILE", "With --fit: where to write the shape that the job works, as text layers.");
    private readonly Option<string> _pictures = Arguments.File("--fit-pictures", "DIR",
        "With --fit: a folder for a PNG picture of each changed layer before and after.");

    /// <summary>The option that asks for it.</summary>
    public Option Fit => _fit;

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(ExampleCommand command)
    {
        foreach (var option in new Option[] { _fit, _cells, _shape, _pictures })
            command.Add(option);
        command.Demand(parsed =>
        {
            if (parsed.GetResult(_fit) is null)
                foreach (var option in new Option[] { _cells, _shape, _pictures }.Where(option => parsed.GetResult(option) is not null))
                    parsed.AddError($"{option.Name}: found no --fit; allowed: --fit beside it.");
        });
    }

    /// <summary>Where to write the changed shape; null where it is not asked for.</summary>
    public string? ShapePath(ParseResult parsed) => parsed.GetValue(_shape);

    /// <summary>What is wished; null where nothing may be changed.</summary>
    public FitWishes? Of(ParseResult parsed) => parsed.GetResult(_fit) is not { } fit ? null : new FitWishes
    {
        Allowed = fit.Tokens.Count == 0 ? FitChanges.All : parsed.GetValue(_fit),
        MostCells = parsed.GetValue(_cells),
        Pictures = parsed.GetValue(_pictures),
    };

    private static FitChanges Parse(ArgumentResult written)
    {
        var allowed = FitChanges.None;
        foreach (var word in written.Tokens.SelectMany(token => token.Value.Split(',')))
        {
            if (!Words.TryGetValue(word, out var change))
            {
                written.AddError($"--fit: found '{Shown.Of(word)}'; allowed: {string.Join(", ", Words.Keys)}, with commas between.");
                break;
            }
            allowed |= change;
        }
        return allowed;
    }
}

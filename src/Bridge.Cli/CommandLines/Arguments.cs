using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Bridge.Jobs;
using Bridge.Mock;

namespace Bridge.Cli;

/// <summary>Arguments and options that several commands share, and how their values are read.</summary>
internal static class Arguments
{
    public static Argument<string> Job() => File("JOB", "The job file, as bridge plan writes it.");

    public static Option<string> Machine()
    {
        var machine = MaybeMachine();
        machine.Required = true;
        return machine;
    }

    public static Option<string> MaybeMachine() =>
        File("--machine", "FILE", "The machine file (TOML). Three are in examples/machines; the README there tells how to write your own.");

    public static Option<string> Runs()
    {
        var runs = File("--runs", "DIR", "Where the run's own folder is made, with its journal, summary and pictures.");
        runs.DefaultValueFactory = _ => "runs";
        return runs;
    }

    public static Option<bool> Raw() => Flag("--raw", "JOB is not a job file but the plain bytes of a store, as bridge plan --image writes them.");

    public static Option<byte> Threshold() => new("--threshold")
    {
        Description = "For a picture: pixels darker than this are worked. 0 (none) to 255 (all but white).",
        HelpName = "GREY",
        DefaultValueFactory = _ => 128,
        CustomParser = written => byte.TryParse(Word(written), NumberStyles.None, CultureInfo.InvariantCulture, out var grey)
            ? grey
            : Refuse<byte>(written, "0 to 255"),
    };

    public static Option<bool> Dither() => Flag("--dither", "For a picture: greys become scattered cells (Floyd-Steinberg).");

    public static Option<int> Seed() => new("--seed")
    {
        Description = "On the mock device: decides all that is left to chance, from 0.",
        HelpName = "N",
        DefaultValueFactory = _ => 1,
        CustomParser = written => int.TryParse(Word(written), NumberStyles.None, CultureInfo.InvariantCulture, out var seed)
            ? seed
            : Refuse<int>(written, $"0 to {int.MaxValue}"),
    };

    public static Option<MockFaults> Faults() => new("--faults")
    {
        Description = $"On the mock device: what goes wrong, such as drop=0.01,estop-at=20. Known: {string.Join(", ", FaultText.Known)}.",
        HelpName = "LIST",
        DefaultValueFactory = _ => MockFaults.None,
        CustomParser = written =>
        {
            try
            {
                return MockFaults.Parse(Word(written));
            }
            catch (RefusedException refused)
            {
                foreach (var refusal in refused.Refusals)
                    written.AddError($"--{refusal}");
                return null;
            }
        },
    };

    /// <summary>An argument that names a file.</summary>
    public static Argument<string> File(string name, string description)
    {
        var file = new Argument<string>(name) { Description = description };
        file.Validators.Add(written => RefuseEmpty(written, name, written.Tokens));
        return file;
    }

    /// <summary>An option that names a file or a folder.</summary>
    public static Option<string> File(string name, string helpName, string description)
    {
        var file = new Option<string>(name) { Description = description, HelpName = helpName };
        file.Validators.Add(written => RefuseEmpty(written, name, written.Tokens));
        return file;
    }

    /// <summary>An option that is there or not, and takes no value.</summary>
    public static Option<bool> Flag(string name, string description) => new(name) { Description = description, Arity = ArgumentArity.Zero };

    private static void RefuseEmpty(SymbolResult written, string name, IReadOnlyList<Token> tokens)
    {
        if (tokens.Any(token => token.Value.Length == 0))
            written.AddError($"{name}: found an empty name; allowed: the name of a file or folder.");
    }

    private static string Word(ArgumentResult written) => written.Tokens is [var token] ? token.Value : "";

    private static T? Refuse<T>(ArgumentResult written, string allowed)
    {
        written.AddError($"{(written.Parent as OptionResult)?.Option.Name}: found {Word(written)}; allowed: {allowed}.");
        return default;
    }
}

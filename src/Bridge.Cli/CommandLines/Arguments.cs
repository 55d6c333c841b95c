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

    /// <summary>What a device is for, in a few words, and then how one is named.</summary>
    public static Option<string> Device(string what, string byDefault = Cli.Device.MockName) => new("--device")
    {
        Description = $"{what}: {Cli.Device.MockName}, a whole machine in software, or the serial port that a board is on, "
            + "such as /dev/ttyACM0 or COM3; bridge ports lists them.",
        HelpName = "DEVICE",
        DefaultValueFactory = _ => byDefault,
    };

    public static Option<string> Runs(string what = "Where the run's own folder is made, with its journal, summary and pictures.")
    {
        var runs = File("--runs", "DIR", what);
        runs.DefaultValueFactory = _ => "runs";
        return runs;
    }

    public static Argument<string> Run(string name = "RUN", string description = "The run's folder, as bridge run named it at its end.") =>
        File(name, description);

    public static Option<string> Checklist() =>
        File("--checklist", "FILE", "What is asked before a real machine moves, instead of the program's own list (safety/checklist.toml).");

    public static Option<bool> Raw() => Flag("--raw", "JOB is not a job file but the plain bytes of a store, as bridge plan --image writes them.");

    public static Option<string> Layout(string what) =>
        File("--layout", "FILE", $"{what} Examples are in examples/layouts; the README there tells how to write your own.");

    public static Option<byte?> Threshold() => new("--threshold")
    {
        Description = "For a picture or a drawing: what is darker than this is worked. 0 (none) to 255 (all but white); 128 if not given.",
        HelpName = "GREY",
        CustomParser = written => byte.TryParse(Word(written), NumberStyles.None, CultureInfo.InvariantCulture, out var grey)
            ? grey
            : Refuse<byte?>(written, "0 to 255"),
    };

    public static Option<bool> Dither() => Flag("--dither", "For a picture: greys become scattered cells (Floyd-Steinberg).");

    public static Option<int?> PlanSeconds() => new("--seconds")
    {
        Description = "Look for a better plan for so long, 1 to 86400 seconds, and give the best one found. Ctrl-C gives the best so far at any time.",
        HelpName = "N",
        CustomParser = written => int.TryParse(Word(written), NumberStyles.None, CultureInfo.InvariantCulture, out var seconds) && seconds is >= 1 and <= 86400
            ? seconds
            : Refuse<int?>(written, "1 to 86400"),
    };

    /// <summary>An option that says how often, from 1.</summary>
    public static Option<int> Times(int most, string description) => new("--times")
    {
        Description = description,
        HelpName = "N",
        DefaultValueFactory = _ => 1,
        CustomParser = written => int.TryParse(Word(written), NumberStyles.None, CultureInfo.InvariantCulture, out var times) && times >= 1 && times <= most
            ? times
            : Refuse<int>(written, $"1 to {most}"),
    };

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
        Description = $"On the mock device: what goes wrong, such as drop=0.01,estop-at=20. Known: {string.Join(", ", FaultText.Forms)}. "
            + "A CHANCE is from 0 to 1 for each frame; CELLS are counted as they are worked.",
        HelpName = "LIST",
        CustomParser = written =>
        {
            if (string.IsNullOrWhiteSpace(Word(written)))
                return Refuse<MockFaults>(written, "one fault or more; leave it out for none");
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

    /// <summary>Says that the value of an option is not good, and gives none.</summary>
    public static T? Refuse<T>(ArgumentResult written, string allowed)
    {
        var found = Word(written) is { Length: > 0 } word ? word : "nothing";
        written.AddError($"{(written.Parent as OptionResult)?.Option.Name}: found {found}; allowed: {allowed}.");
        return default;
    }

    /// <summary>The one word that is written for an option; empty where there is another number of them.</summary>
    public static string Word(ArgumentResult written) => written.Tokens is [var token] ? token.Value : "";
}

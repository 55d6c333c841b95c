using System.CommandLine;

namespace Bridge.Cli;

/// <summary>Arguments and options that several commands share.</summary>
internal static class Arguments
{
    public static Argument<string> Job() => new("JOB") { Description = "The job file, as bridge plan writes it." };

    public static Option<string> Machine(bool required = true) => new("--machine")
    {
        Description = "The machine file (TOML). examples/machines/README.md tells how to write your own.",
        HelpName = "FILE",
        Required = required,
    };

    public static Option<bool> Raw() => new("--raw")
    {
        Description = "JOB is not a job file but the plain bytes of a store, as bridge plan --image writes them.",
    };

    public static Option<byte> Threshold() => new("--threshold")
    {
        Description = "For a picture: pixels darker than this are worked, 0 to 255.",
        HelpName = "GREY",
        DefaultValueFactory = _ => 128,
    };

    public static Option<bool> Dither() => new("--dither")
    {
        Description = "For a picture: greys become scattered cells (Floyd-Steinberg).",
    };
}

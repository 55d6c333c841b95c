using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Net;
using Bridge.Mock;
using Bridge.Panel;

namespace Bridge.Cli;

/// <summary>bridge panel: a page on which a person sees the machine and runs it.</summary>
internal static class PanelCommand
{
    public static Command Make(Report report)
    {
        var machine = Arguments.Machine();
        var device = Arguments.Device("What jobs are run on, beside dry runs on the mock");
        var runs = Arguments.Runs();
        var checklist = Arguments.Checklist();
        var port = new Option<int>("--port")
        {
            Description = "The port of the page, 1024 to 65535; one that is free if not given.",
            HelpName = "N",
            CustomParser = written => int.TryParse(Arguments.Word(written), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
                && number is >= 1024 and <= 65535 ? number : Arguments.Refuse<int>(written, "1024 to 65535"),
        };
        var listen = new Option<IPAddress>("--listen")
        {
            Description = "An address of this computer under which others on its network may open the page, such as a tablet beside the machine. "
                + "Only with --pass-phrase-file. What passes is not encrypted.",
            HelpName = "ADDRESS",
            DefaultValueFactory = _ => IPAddress.Loopback,
            CustomParser = written => AddressOf(Arguments.Word(written))
                ?? Arguments.Refuse<IPAddress>(written, "one address of this computer, such as 192.168.1.20"),
        };
        var phrase = Arguments.File("--pass-phrase-file", "FILE", $"With --listen: a file whose first line is the phrase that a page has to give, "
            + $"{PassPhrase.Shortest} characters and more.");
        var noBrowser = Arguments.Flag("--no-browser", "Print the address and open nothing.");
        var faults = Arguments.Faults();
        var seed = Arguments.Seed();
        var command = new ExampleCommand("panel",
            "Serve a page on which a person sees the machine and runs it: plan, dry run, run, the machine by hand, past runs.",
            "bridge panel --machine examples/machines/desktop-gantry.toml",
            "bridge panel --machine my-plotter.toml --device /dev/ttyACM0")
        {
            machine, device, runs, checklist, port, listen, phrase, noBrowser, faults, seed,
        };
        command.Demand(parsed => RefuseOpenWithoutPhrase(parsed, listen, phrase));
        command.SetAction((parsed, _) =>
        {
            var setting = Setting(report, parsed.GetRequiredValue(machine), parsed.GetRequiredValue(device), parsed.GetValue(faults) ?? MockFaults.None,
                parsed.GetValue(seed)) with
            {
                Runs = parsed.GetRequiredValue(runs),
                Checklist = parsed.GetValue(checklist) is { } own ? Bridge.Runs.Checklist.Read(own) : Bridge.Runs.Checklist.Own,
                PassPhrase = parsed.GetValue(phrase) is { } file ? PassPhrase.Read(file, TimeProvider.System) : null,
            };
            return PanelServing.RunAsync(report, setting, parsed.GetRequiredValue(listen), parsed.GetValue(port), opens: !parsed.GetValue(noBrowser));
        });
        return command;
    }

    private static PanelSetting Setting(Report report, string machinePath, string device, MockFaults faults, int seed)
    {
        var machine = MachineInput.Read(machinePath, out var bytes);
        return new PanelSetting
        {
            Machine = machine,
            MachinePath = machinePath,
            MachineBytes = bytes,
            Devices = new PanelDevices(report, machine, device, faults, seed),
            Runs = "",
            Examples = Path.Combine(AppContext.BaseDirectory, "examples", "shapes"),
            Time = TimeProvider.System,
        };
    }

    // One address, not all of them: what a browser asks for is held against it.
    private static IPAddress? AddressOf(string text) =>
        IPAddress.TryParse(text, out var address) && !address.Equals(IPAddress.Any) && !address.Equals(IPAddress.IPv6Any) ? address : null;

    private static void RefuseOpenWithoutPhrase(CommandResult parsed, Option<IPAddress> listen, Option<string> phrase)
    {
        var isOpen = parsed.GetResult(listen) is { Tokens: [var written] } && AddressOf(written.Value) is { } address && !IPAddress.IsLoopback(address);
        if (isOpen && parsed.GetValue(phrase) is null)
            parsed.AddError("--listen: found no --pass-phrase-file beside it; allowed: with one, for others on the network may then ask.");
        if (!isOpen && parsed.GetValue(phrase) is not null)
            parsed.AddError("--pass-phrase-file: found without --listen; allowed: beside an address of this computer that others reach.");
    }
}

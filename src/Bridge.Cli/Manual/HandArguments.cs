using System.CommandLine;

namespace Bridge.Cli;

/// <summary>The options that every command by hand has.</summary>
internal sealed class HandArguments(string what, string byDefault = Device.MockName)
{
    private readonly Option<string> _machine = Arguments.Machine();
    private readonly Option<string> _device = Arguments.Device(what, byDefault);
    private readonly Option<bool> _unattended = Arguments.Flag("--unattended",
        "Nobody answers or presses keys. For test rigs: a board moves without a terminal only with this.");

    private readonly Option<string> _runs = Arguments.Runs(
        "On a board: where a folder is made for what was answered before it moved, and where today's answers are looked for.");
    private readonly Option<string> _checklist = Arguments.Checklist();

    public void AddTo(Command command)
    {
        command.Options.Add(_machine);
        command.Options.Add(_device);
        command.Options.Add(_unattended);
        command.Options.Add(_runs);
        command.Options.Add(_checklist);
    }

    public HandOptions Read(ParseResult parsed) => new(
        parsed.GetRequiredValue(_machine), new PreRun(
            parsed.GetRequiredValue(_device), parsed.GetRequiredValue(_runs), parsed.GetValue(_checklist), parsed.GetValue(_unattended)));
}

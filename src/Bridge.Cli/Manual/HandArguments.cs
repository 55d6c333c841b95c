using System.CommandLine;

namespace Bridge.Cli;

/// <summary>The options that every command by hand has.</summary>
internal sealed class HandArguments(string what)
{
    private readonly Option<string> _machine = Arguments.Machine();
    private readonly Option<string> _device = Arguments.Device(what);
    private readonly Option<bool> _unattended = Arguments.Flag("--unattended",
        "Nobody answers or presses keys. For test rigs: a board moves without a terminal only with this.");

    public void AddTo(Command command)
    {
        command.Options.Add(_machine);
        command.Options.Add(_device);
        command.Options.Add(_unattended);
    }

    public HandOptions Read(ParseResult parsed) =>
        new(parsed.GetRequiredValue(_machine), parsed.GetRequiredValue(_device), parsed.GetValue(_unattended));
}

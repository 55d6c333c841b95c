using System.CommandLine;
using System.CommandLine.Parsing;

namespace Bridge.Cli;

/// <summary>A command whose help ends with examples, and whose words may have to go together.</summary>
internal sealed class ExampleCommand(string name, string description, params string[] examples) : Command(name, description)
{
    public IReadOnlyList<string> Examples => examples;

    /// <summary>Adds a rule of words beside one another. Where a word is not good by itself the parser says so, and the rule has nothing to say.</summary>
    public void Demand(Action<CommandResult> rule) => Validators.Add(parsed =>
    {
        try
        {
            rule(parsed);
        }
        catch (InvalidOperationException)
        {
            // A value that is missing, doubled or wrong cannot be asked for: rules are looked at before the values.
        }
    });
}

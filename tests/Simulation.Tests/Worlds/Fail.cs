using System.Runtime.CompilerServices;

namespace Simulation.Tests;

/// <summary>What ends a simulation: something was seen that must never be.</summary>
internal sealed class SimulationFailedException(string what) : Exception(what);

/// <summary>Ends a simulation.</summary>
internal static class Fail
{
    public static void If(bool isWrong, [InterpolatedStringHandlerArgument(nameof(isWrong))] Words what)
    {
        if (isWrong)
            throw new SimulationFailedException(what.ToString());
    }

    /// <summary>Words that are put together only where they are needed: a simulation looks millions of times.</summary>
    [InterpolatedStringHandler]
    public readonly ref struct Words
    {
        public Words(int literalLength, int formattedCount, bool isWrong, out bool isNeeded)
        {
            isNeeded = isWrong;
            Text = isWrong ? new System.Text.StringBuilder(literalLength) : null;
        }

        private System.Text.StringBuilder? Text { get; }

        public void AppendLiteral(string text) => Text!.Append(text);

        public void AppendFormatted<T>(T value) => Text!.Append(value);

        public override string ToString() => Text!.ToString();
    }
}

using System.Diagnostics;
using Contract.Tests;

namespace Bridge.Cli.Tests;

/// <summary>The firmware's core as a program on a pseudo-terminal, in real time, with a gantry of its own.</summary>
internal sealed class NativeBoard : IDisposable
{
    /// <summary>Items of the program's checklist, and those of them that are asked each time.</summary>
    public const int WholeList = 7;

    public const int ShortList = 3;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private static readonly Lazy<string> Program = new(() => NativeMake.Build(NativeMake.Reference, NativeMake.OwnFolder, "bridge-native"));

    private readonly Process _process;

    private NativeBoard(Process process, string portName) => (_process, PortName) = (process, portName);

    /// <summary>Why there is none here; null where there is one.</summary>
    public static string? IsMissingBecause { get; } =
        OperatingSystem.IsLinux() ? NativeMake.IsMissingBecause : "The native board is a program for Linux.";

    /// <summary>The terminal to open.</summary>
    public string PortName { get; }

    public static async Task<NativeBoard> Start()
    {
        var start = new ProcessStartInfo(Program.Value) { RedirectStandardInput = true, RedirectStandardOutput = true };
        var process = Process.Start(start)!;
        var said = await process.StandardOutput.ReadLineAsync().WaitAsync(Patience);
        return new NativeBoard(process, said!.Trim());
    }

    /// <summary>State and cause, numbers of the specification, and the cells worked.</summary>
    public async Task<(int State, int Cause, int Worked)> Look()
    {
        var words = await Say("state");
        return (Number(1), Number(3), Number(9));

        int Number(int word) => int.Parse(words[word], System.Globalization.CultureInfo.InvariantCulture);
    }

    /// <summary>Looks until it is as wanted.</summary>
    public async Task Until(Func<(int State, int Cause, int Worked), bool> isIt)
    {
        for (var waiting = Stopwatch.StartNew(); !isIt(await Look()); await Task.Delay(20))
            if (waiting.Elapsed > Patience)
                throw new TimeoutException($"It never came to that: {await Look()}");
    }

    /// <summary>Where the carriage is, in steps from cell 0.</summary>
    public async Task<(int X, int Y)> Place()
    {
        var words = await Say("state");
        return (int.Parse(words[5], System.Globalization.CultureInfo.InvariantCulture), int.Parse(words[6], System.Globalization.CultureInfo.InvariantCulture));
    }

    /// <summary>Whether each head is at work: a pen that is down.</summary>
    public async Task<(bool A, bool B)> Heads()
    {
        var words = await Say("state");
        return (words[11] == "1", words[12].Trim() == "1");
    }

    /// <summary>Looks until the heads are at work as wanted.</summary>
    public async Task UntilHeads((bool A, bool B) wanted)
    {
        for (var waiting = Stopwatch.StartNew(); await Heads() != wanted; await Task.Delay(20))
            if (waiting.Elapsed > Patience)
                throw new TimeoutException($"They never came to that: {await Heads()}");
    }

    /// <summary>Hands on the machine: e-stop open, e-stop closed, endstop AXIS FAULT and others that its source names.</summary>
    public async Task Do(string hands)
    {
        await _process.StandardInput.WriteLineAsync(hands);
        await _process.StandardInput.FlushAsync();
    }

    /// <summary>Answers the checklist at a terminal and tries the e-stop, as a careful person does.</summary>
    public async Task LookOver(BridgeProcess process)
    {
        await Answer(process, WholeList);
        await process.Says("Press the e-stop now");
        await Do("e-stop open");
        await process.Says("Seen open.");
        await Do("e-stop closed");
        await process.Says("Seen closed again.");
    }

    /// <summary>Gives a name and says yes to each item as it is asked.</summary>
    public static async Task Answer(BridgeProcess process, int items)
    {
        await process.Says("Who operates it?");
        process.Type("Ada\r");
        for (var item = 1; item <= items; item++)
        {
            await process.Says($"{item} of {items}: ");
            process.Type("y\r");
        }
    }

    /// <summary>Pulls the line, and the power with it.</summary>
    public void Kill() => _process.Kill();

    public void Dispose()
    {
        if (!_process.HasExited)
            _process.Kill();
        _process.Dispose();
    }

    private async Task<string[]> Say(string words)
    {
        await Do(words);
        return (await _process.StandardOutput.ReadLineAsync().WaitAsync(Patience))!.Split(' ');
    }
}

/// <summary>A test that needs the native board; elsewhere it is skipped, and says so.</summary>
public sealed class NativeBoardFactAttribute : FactAttribute
{
    public NativeBoardFactAttribute() => Skip = NativeBoard.IsMissingBecause;
}

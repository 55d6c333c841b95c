using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace Bridge.Cli.Tests;

/// <summary>The built program as a process of its own, its output read as it comes.</summary>
internal sealed class BridgeProcess : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(45);

    private readonly Process _process;
    private readonly StringBuilder _output = new();
    private readonly StringBuilder _error = new();
    private readonly Task _reading;

    private BridgeProcess(string program, IEnumerable<string> args, string folder)
    {
        var start = new ProcessStartInfo(program, args)
        {
            WorkingDirectory = folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardOutputEncoding = Encoding.UTF8,
            StandardErrorEncoding = Encoding.UTF8,
        };
        start.Environment["TERM"] = "xterm-256color";
        start.Environment["COLUMNS"] = "80";
        start.Environment.Remove("NO_COLOR");
        _process = Process.Start(start)!;
        _reading = Task.WhenAll(Take(_process.StandardOutput, _output), Take(_process.StandardError, _error));
    }

    public static string Program { get; } = Path.Combine(AppContext.BaseDirectory, OperatingSystem.IsWindows() ? "bridge.exe" : "bridge");

    public static BridgeProcess Start(string folder, params IEnumerable<string> args) => new(Program, args, folder);

    /// <summary>The program at a pseudo-terminal, by script of util-linux; what is typed here is typed there.</summary>
    public static BridgeProcess StartAtTerminal(string folder, string words) =>
        new("script", ["-qec", $"stty cols 80; {words}", "/dev/null"], folder);

    public static async Task<Ran> Run(string folder, params IEnumerable<string> args)
    {
        using var process = Start(folder, args);
        return await process.End();
    }

    /// <summary>A line for the shell, run to its end.</summary>
    public static async Task<Ran> RunInShell(string folder, string line)
    {
        using var process = new BridgeProcess("sh", ["-c", line], folder);
        return await process.End();
    }

    /// <summary>The output so far.</summary>
    public string Output => Text(_output);

    /// <summary>Waits until something stands in the output, so often if need be.</summary>
    public async Task Says(string words, int times = 1)
    {
        bool IsSaid() => Text(_output).Split(words).Length > times;
        var waiting = Stopwatch.StartNew();
        while (!IsSaid())
        {
            Assert.True(waiting.Elapsed < Patience && !(_reading.IsCompleted && !IsSaid()),
                $"\"{words}\" was never said, but: {Text(_output)}{Text(_error)}");
            await Task.Delay(10);
        }
    }

    public void Signal(string name)
    {
        using var kill = Process.Start("kill", ["-s", name, _process.Id.ToString(CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
    }

    /// <summary>Types a key; one that comes after the program's end is heard by nobody.</summary>
    public void Type(char key) => Type(key.ToString());

    /// <summary>The same for a key that a terminal tells by several characters.</summary>
    public void Type(string key)
    {
        try
        {
            _process.StandardInput.Write(key);
            _process.StandardInput.Flush();
        }
        catch (IOException) when (_process.WaitForExit(Patience))
        {
        }
    }

    public async Task<Ran> End()
    {
        await _process.WaitForExitAsync().WaitAsync(Patience);
        await _reading.WaitAsync(Patience);
        return new Ran(_process.ExitCode, Text(_output), Text(_error));
    }

    /// <summary>Types a key until the program ends: one that comes too soon is no answer.</summary>
    public async Task<Ran> EndAfterTyping(char key)
    {
        var ending = End();
        do
            Type(key);
        while (await Task.WhenAny(ending, Task.Delay(500)) != ending);
        return await ending;
    }

    public void Dispose()
    {
        if (!_process.HasExited)
            _process.Kill();
        _process.Dispose();
    }

    private static string Text(StringBuilder text)
    {
        lock (text)
            return text.ToString();
    }

    private static async Task Take(StreamReader from, StringBuilder into)
    {
        var buffer = new char[4096];
        int count;
        while ((count = await from.ReadAsync(buffer)) > 0)
            lock (into)
                into.Append(buffer, 0, count);
    }
}

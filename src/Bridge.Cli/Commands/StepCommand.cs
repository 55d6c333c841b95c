using System.CommandLine;
using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Teaching;

namespace Bridge.Cli;

/// <summary>bridge step: a job under a person's hand.</summary>
internal static class StepCommand
{
    private const string InterpreterName = "interpreter";

    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(20);

    public static Command Make(Report report)
    {
        var job = Arguments.Job();
        var raw = Arguments.Raw();
        var commands = new Option<string[]>("--do")
        {
            Description = "Commands to do one after another, in place of those that are typed, as in --do record \"to head b works\" back.",
            HelpName = "COMMAND",
            AllowMultipleArgumentsPerToken = true,
        };
        var hand = new HandArguments("What does the steps in place of the interpreter, which moves nothing", InterpreterName);
        var command = new ExampleCommand("step",
            "Step through a job by cells, records and layers, forwards and back, and see its counters, its memory and its picture at each stop. "
            + "Commands are typed, or come from another program; help lists them.",
            "bridge step kite.job --machine examples/machines/cardboard-plotter.toml",
            "bridge step kite.job --machine examples/machines/cardboard-plotter.toml --device mock --do record \"to head b works\" back",
            "bridge step kite.job --machine my-plotter.toml --device /dev/ttyACM0")
        {
            job, raw, commands,
        };
        hand.AddTo(command);
        command.SetAction((parsed, _) => StepAsync(
            report, parsed.GetRequiredValue(job), parsed.GetValue(raw), hand.Read(parsed),
            parsed.GetValue(commands) is { Length: > 0 } given ? new(given) : null));
        return command;
    }

    private static async Task<int> StepAsync(Report report, string jobPath, bool raw, HandOptions options, Queue<string>? commands)
    {
        var machine = MachineInput.Read(options.Machine, out _);
        var job = JobInput.ReadFor(jobPath, raw, machine);
        var stepper = new Stepper(job.Image, machine.Grid);
        report.Heading($"{Path.GetFileName(jobPath)}: {Counted.Of(job.Image.Count, "record")} on {machine.Name}");
        if (options.Device == InterpreterName)
            return await OnInterpreterAsync(report, stepper, commands).ConfigureAwait(false);
        ProvedJob.Of(job, machine); // what moves a machine, or acts as one, is proved
        return options.Device == Device.MockName
            ? await OnMockAsync(report, stepper, machine, commands).ConfigureAwait(false)
            : await OnBoardAsync(report, stepper, options, commands).ConfigureAwait(false);
    }

    private static async Task<int> OnInterpreterAsync(Report report, Stepper stepper, Queue<string>? commands)
    {
        var session = new StepSession(report, stepper, null, "", () => Given(commands) ?? Console.In.ReadLineAsync());
        await session.RunAsync().ConfigureAwait(false);
        return CodeOf(report, session);
    }

    private static async Task<int> OnMockAsync(Report report, Stepper stepper, Machine machine, Queue<string>? commands)
    {
        using var mock = new MockStepping(machine, seed: 1);
        var session = new StepSession(report, stepper, mock, Device.MockName, () => Given(commands) ?? Console.In.ReadLineAsync());
        if (await mock.BeginAsync().ConfigureAwait(false) && await session.RunAsync().ConfigureAwait(false))
            return CodeOf(report, session);
        report.Problem(mock.Trouble ?? "The mock device did not go on.");
        return ExitCode.Device;
    }

    private static async Task<int> OnBoardAsync(Report report, Stepper stepper, HandOptions options, Queue<string>? commands)
    {
        var wasRefused = false;
        var code = await HandSession.RunAsync(report, options, moves: true, async (hand, device) =>
        {
            if (!await hand.ReferenceAsync().ConfigureAwait(false))
                return false;
            var board = new BoardStepping(hand, device, RunNumber.New);
            var session = new StepSession(report, stepper, board, "board", () => Given(commands) ?? TypedAsync(hand, device));
            var isDone = await session.RunAsync().ConfigureAwait(false);
            wasRefused = session.WasRefused && !report.IsAttended;
            return isDone;
        }).ConfigureAwait(false);
        return code == ExitCode.Done && wasRefused ? ExitCode.Refused : code;
    }

    // At a terminal a slip of the finger is told at once; from another program it must not go unseen.
    private static int CodeOf(Report report, StepSession session) => session.WasRefused && !report.IsAttended ? ExitCode.Refused : ExitCode.Done;

    // The next of the commands that were given, and after the last the end; null where none were.
    private static Task<string?>? Given(Queue<string>? commands) => commands is null ? null
        : Task.FromResult(commands.TryDequeue(out var next) ? next : null);

    // The device is kept company while a person thinks.
    private static async Task<string?> TypedAsync(MachineHand hand, DeviceDialogue device)
    {
        var reading = Task.Run(Console.ReadLine);
        while (!reading.IsCompleted && !hand.IsInterrupted && hand.Trouble is null)
            await device.PassAsync(Interval).ConfigureAwait(false);
        return reading.IsCompleted ? await reading.ConfigureAwait(false) : null;
    }
}

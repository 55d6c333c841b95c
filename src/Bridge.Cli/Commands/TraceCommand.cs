using System.CommandLine;
using System.Globalization;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Runs;
using Bridge.Teaching;

namespace Bridge.Cli;

/// <summary>bridge trace: a job as signals over time.</summary>
internal static class TraceCommand
{
    private const string InterpreterName = "interpreter";

    public static Command Make(Report report)
    {
        var job = Arguments.Job();
        job.Arity = ArgumentArity.ZeroOrOne;
        var machine = Arguments.MaybeMachine();
        var output = Arguments.File("--out", "FILE", "Where to write the trace, a value change dump (.vcd, IEEE 1364) for a wave viewer.");
        output.Required = true;
        var device = new Option<string>("--device")
        {
            Description = $"Where the signals come from: {InterpreterName}, with the motion model, or {Device.MockName}, a whole run of the mock device.",
            HelpName = "DEVICE",
            DefaultValueFactory = _ => InterpreterName,
            CustomParser = written => Arguments.Word(written) is InterpreterName or Device.MockName
                ? Arguments.Word(written)
                : Arguments.Refuse<string>(written, $"{InterpreterName} or {Device.MockName}; for a board's run, --run with its folder"),
        };
        var run = Arguments.File("--run", "DIR", "In place of JOB: the folder of a run, on a board or the mock device. What its journal knows is traced.");
        var (faults, seed, raw) = (Arguments.Faults(), Arguments.Seed(), Arguments.Raw());
        var records = new Option<long?>("--records")
        {
            Description = "Trace no more than so many executed records, repeats counted; all if not given.",
            HelpName = "N",
            CustomParser = written => long.TryParse(Arguments.Word(written), NumberStyles.None, CultureInfo.InvariantCulture, out var count) && count > 0
                ? count
                : Arguments.Refuse<long?>(written, "1 and up"),
        };
        var command = new ExampleCommand("trace",
            "Write the signals of a job as a value change dump: steps, directions, head, endstops, e-stop, record, counter and state over time.",
            "bridge trace kite.job --machine examples/machines/cardboard-plotter.toml --out kite.vcd",
            "bridge trace kite.job --machine examples/machines/cardboard-plotter.toml --device mock --faults estop-at=20 --out stopped.vcd",
            "bridge trace --run runs/2026-05-04T16-20-00Z-kite --out run.vcd")
        {
            job, machine, output, device, run, faults, seed, records, raw,
        };
        command.Demand(parsed =>
        {
            var ofMock = new Option[] { faults, seed };
            if (parsed.GetResult(run) is not null)
                RefuseBesideRun(parsed, job, [machine, device, records, raw, .. ofMock]);
            else if (parsed.GetResult(job) is not { Tokens.Count: > 0 } || parsed.GetResult(machine) is null)
                parsed.AddError("JOB, --machine: found one or both missing; allowed: both, or --run with the folder of a run.");
            else if (parsed.GetResult(device) is not { Tokens: [{ Value: Device.MockName }] })
                foreach (var option in ofMock.Where(option => parsed.GetResult(option) is { Implicit: false }))
                    parsed.AddError($"{option.Name}: found without --device {Device.MockName}; allowed: beside it. "
                        + $"Leave {option.Name} out, or add --device {Device.MockName}.");
        });
        command.SetAction(parsed => parsed.GetValue(run) is { } folder
            ? OfRun(report, folder, parsed.GetRequiredValue(output))
            : OfJob(report, new TraceWishes(parsed.GetRequiredValue(job), parsed.GetValue(machine)!, parsed.GetValue(raw), parsed.GetRequiredValue(output),
                parsed.GetValue(device) == Device.MockName, parsed.GetValue(faults) ?? MockFaults.None, parsed.GetValue(seed),
                parsed.GetValue(records) ?? long.MaxValue)));
        return command;
    }

    private static void RefuseBesideRun(System.CommandLine.Parsing.CommandResult parsed, Argument<string> job, Option[] options)
    {
        if (parsed.GetResult(job) is { Tokens.Count: > 0 })
            parsed.AddError("JOB: found beside --run; allowed: one of them. The run's folder has its job.");
        foreach (var option in options.Where(option => parsed.GetResult(option) is { Implicit: false }))
            parsed.AddError($"{option.Name}: found beside --run; allowed: one of them. Leave {option.Name} out.");
    }

    private static int OfJob(Report report, TraceWishes wishes)
    {
        var files = new OutputFiles([wishes.Job, wishes.Machine], ("--out", wishes.Out));
        var machine = MachineInput.Read(wishes.Machine, out _);
        var job = JobInput.ReadFor(wishes.Job, wishes.Raw, machine);
        return wishes.OnMock ? OfMock(report, wishes, files, ProvedJob.Of(job, machine)) : OfModel(report, wishes, files, job, machine);
    }

    private static int OfModel(Report report, TraceWishes wishes, OutputFiles files, JobFile job, Machine machine)
    {
        JobFault? fault = null;
        files.Write(stream => fault = ModelTrace.Write(job.Image, machine, wishes.Records, stream));
        report.Line($"Trace: {wishes.Out}, from the interpreter and the motion model; endstops and e-stop stay at rest in it.");
        if (fault is not null)
            report.Line($"Problem: {fault}");
        return fault is null ? ExitCode.Done : ExitCode.Refused;
    }

    private static int OfMock(Report report, TraceWishes wishes, OutputFiles files, ProvedJob job)
    {
        RunEnd? end = null;
        files.Write(stream => end = MockTrace.Write(job, wishes.Faults, wishes.Seed, wishes.Records, stream));
        report.Line($"{end!.Outcome}: {end.Words}");
        report.Line($"Trace: {wishes.Out}, from a run on the mock device.");
        return JobRun.CodeOf(end.Outcome);
    }

    private static int OfRun(Report report, string folder, string outPath)
    {
        var run = StoppedRun.Read(folder);
        var files = new OutputFiles([run.Folder.JobFile, run.Folder.MachineFile, run.Folder.JournalFile], ("--out", outPath));
        files.Write(stream => JournalTrace.Write(run, JournalFile.Read(run.Folder.JournalFile), stream));
        report.Line($"Trace: {outPath}, from the journal of {folder}.");
        report.Line(JournalTrace.NotThere);
        return ExitCode.Done;
    }
}

/// <summary>What bridge trace was told of a job.</summary>
internal sealed record TraceWishes(string Job, string Machine, bool Raw, string Out, bool OnMock, MockFaults Faults, int Seed, long Records);

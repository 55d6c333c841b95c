using System.Collections.Concurrent;
using System.Diagnostics;
using Xunit.Abstractions;

namespace Fuzz.Tests;

/// <summary>Readers of input, each with input made from seeds. BRIDGE_FUZZ=FIRST or FIRST+COUNT says which.</summary>
public class FuzzTests(ITestOutputHelper output)
{
    private const string Variable = "BRIDGE_FUZZ";
    private const int ShortRun = 10_000;
    private const int LeastRead = 20; // one in so many

    private static readonly Dictionary<string, FuzzTarget> Targets = new()
    {
        ["job-files"] = new JobFileTarget(),
        ["images"] = new ImageTarget(),
        ["machine-files"] = new MachineFileTarget(),
        ["frames"] = new FrameTarget(),
        ["messages"] = new MessageTarget(),
        ["link"] = new LinkTarget(),
    };

    public static TheoryData<string> Names => [.. Targets.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void Whatever_it_is_given_it_is_read_or_refused(string name)
    {
        var (first, count) = Seeds(Environment.GetEnvironmentVariable(Variable) ?? "");
        var watch = Stopwatch.StartNew();
        var (failures, read) = Run(Targets[name], first, count);
        output.WriteLine($"{name}: {count} inputs from {first}, {read} read, {watch.Elapsed.TotalSeconds:0.0} s");
        Assert.True(failures.IsEmpty, string.Join("\n\n", failures.OrderBy(failure => failure.Key).Select(failure => Told(name, failure))));
        Assert.True(count < ShortRun || read > count / LeastRead, "Hardly any input is sound enough to be read: the rest of the reader is not tried.");
    }

    [Fact]
    public void A_reader_that_trusts_a_length_is_caught() => Assert.NotEmpty(Run(new TrustingTarget(), 0, 5000).Failures);

    [Fact]
    public void A_decoder_that_forgets_its_escape_is_caught() => Assert.NotEmpty(Run(new FrameTarget(forgetsEscape: true), 0, 5000).Failures);

    private static (ConcurrentDictionary<int, Exception> Failures, int Read) Run(FuzzTarget target, int first, int count)
    {
        var (failures, read) = (new ConcurrentDictionary<int, Exception>(), 0);
        Parallel.For(first, first + count, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, (seed, loop) =>
        {
            try
            {
                if (target.Check(target.InputOf(seed)))
                    Interlocked.Increment(ref read);
            }
            catch (Exception failure)
            {
                failures[seed] = failure;
                if (failures.Count >= 5)
                    loop.Stop();
            }
        });
        return (failures, read);
    }

    private static (int First, int Count) Seeds(string asked)
    {
        var parts = asked.Split('+');
        return asked.Length > 0 ? (int.Parse(parts[0]), parts.Length > 1 ? int.Parse(parts[1]) : 1) : (0, ShortRun);
    }

    private static string Told(string name, KeyValuePair<int, Exception> failure) =>
        $"Seed {failure.Key} of {name}: {failure.Value}\n"
        + $"Input: {Convert.ToHexString(Targets[name].InputOf(failure.Key))}\n"
        + $"Again: {Variable}={failure.Key} dotnet test tests/Fuzz.Tests -c Release --filter \"DisplayName~{name}\"";
}

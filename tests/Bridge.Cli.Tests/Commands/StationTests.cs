using System.Device.Gpio;
using Bridge.Station;
using Bridge.Station.Tests;

namespace Bridge.Cli.Tests;

/// <summary>bridge run --station on the mock device in real time, with pins that a test holds.</summary>
public sealed class StationTests : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private readonly WorkFolder _folder = new();
    private readonly SimulatedPins _pins = new();
    private readonly string _station = WorkFolder.Example("stations", "desk.toml");
    private readonly ContactPins _at;

    public StationTests()
    {
        _at = StationFile.Read(_station).Contacts;
        _pins.Set(_at.EStop, isClosed: true);
        _pins.Set(_at.Hold, isClosed: true);
    }

    public void Dispose()
    {
        _pins.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public async Task A_run_is_started_and_let_go_on_at_the_station()
    {
        // Two cells, hold for the operator, two cells (JOB-FORMAT.md, section 2).
        var image = _folder.Write("image", Convert.FromHexString("400001" + "C20000" + "400101" + "000000"));
        var (output, end) = Begin(image);
        await Until(output, "Ready: the start button at the station starts it.");
        await _pins.PressAsync(_at.Start);
        await Until(output, "The job waits for you");
        await _pins.PressAsync(_at.Start);
        Assert.Equal(0, await end.WaitAsync(Patience));
        Assert.Contains("Start at the station: the run goes on.", output());
        Assert.Contains("Complete: ", output());
    }

    [Fact]
    public async Task An_open_estop_contact_ends_the_run_aborted()
    {
        var image = _folder.Write("image", Convert.FromHexString("400003" + "000000"));
        var (output, end) = Begin(image);
        await Until(output, "Ready: the start button at the station starts it.");
        _pins.Set(_at.EStop, isClosed: false);
        Assert.Equal(4, await end.WaitAsync(Patience));
        Assert.Contains("The station's e-stop contact is open", output());
    }

    [Fact]
    public async Task Where_the_contact_is_open_or_there_are_no_pins_nothing_is_started()
    {
        _pins.Set(_at.EStop, isClosed: false);
        var image = _folder.Write("image", Convert.FromHexString("400001" + "000000"));
        var (output, end) = Begin(image);
        Assert.Equal(1, await end.WaitAsync(Patience));
        Assert.Contains("contacts.estop: found an open contact; allowed: a closed one. Nothing was started.", output());
        Assert.DoesNotContain("runs", _folder.Names);
    }

    [Theory]
    [InlineData("--fast")]
    [InlineData("--unattended")]
    public async Task A_station_is_for_somebody_in_real_time(string option) => (await InProcess.Run(
        "run", _folder.In("image"), "--machine", _folder.Plotter, "--station", _station, option)).AssertMisused($"{option}: found beside --station");

    private (Func<string> Output, Task<int> End) Begin(string image)
    {
        var kept = new StringWriter();
        var output = TextWriter.Synchronized(kept);
        var report = new Report(new OutputWriter(output), output);
        string[] args = ["run", image, "--raw", "--machine", _folder.Quick(0.1), "--station", _station, "--runs", _folder.In("runs")];
        return (Text, Task.Run(() => Program.RunAsync(args, report, _ => new GpioController(_pins))));

        string Text()
        {
            lock (output) // which it writes under
                return kept.ToString();
        }
    }

    private static async Task Until(Func<string> output, string words)
    {
        for (var since = TimeProvider.System.GetTimestamp(); !output().Contains(words, StringComparison.Ordinal); await Task.Delay(5))
            Assert.True(TimeProvider.System.GetElapsedTime(since) < Patience, output());
    }
}

using Bridge.Jobs;
using CsCheck;

namespace Bridge.Mock.Tests;

public class FaultTextTests
{
    private static readonly string[] Values = ["0.5", "20", "x", "x:20", "x:20:8", "1e400", "-1"];
    private static readonly TimeSpan Late = TimeSpan.FromMilliseconds(20);

    [Fact]
    public void No_text_is_no_fault()
    {
        var faults = MockFaults.Parse("");
        Assert.Equal((new LineNoise(LateBy: Late), new LineNoise(LateBy: Late)), (faults.ToDevice, faults.ToHost));
        Assert.Equal((null, null, null, false), (faults.EStopAt, faults.EStopReleasedAfter, faults.CutAt, faults.IsSilent));
        Assert.Empty(faults.Endstops);
        Assert.Empty(faults.Skips);
    }

    [Fact]
    public void Each_word_is_read()
    {
        var faults = MockFaults.Parse(
            "drop=0.01, flip-to-host=0.5, duplicate-to-device=1, late=0.25, late-ms=5, estop-at=20, estop-released-after=1.5, "
            + "endstop-open=x, endstop-closed=z:7, skip=y:3:-80, cut-at=9, silent");
        Assert.Equal(new LineNoise(0.01, 0, 1, 0.25, TimeSpan.FromMilliseconds(5)), faults.ToDevice);
        Assert.Equal(new LineNoise(0.01, 0.5, 0, 0.25, TimeSpan.FromMilliseconds(5)), faults.ToHost);
        Assert.Equal((20L, 9L, true), (faults.EStopAt!.Value, faults.CutAt!.Value, faults.IsSilent));
        Assert.Equal(TimeSpan.FromSeconds(1.5), faults.EStopReleasedAfter);
        Assert.Equal(
            [new EndstopFailure(AxisName.X, EndstopFault.StuckOpen), new EndstopFailure(AxisName.Z, EndstopFault.StuckClosed, 7)], faults.Endstops);
        Assert.Equal([new SkippedSteps(AxisName.Y, 3, -80)], faults.Skips);
    }

    [Theory]
    [InlineData("dorp=1")]
    [InlineData("drop")]
    [InlineData("drop=1.5")]
    [InlineData("drop=-0.1")]
    [InlineData("drop=NaN")]
    [InlineData("drop=0,1")]
    [InlineData("estop-at=0")]
    [InlineData("estop-at=x")]
    [InlineData("estop-released-after=1e9")]
    [InlineData("endstop-open=w")]
    [InlineData("endstop-open=x:1:2")]
    [InlineData("skip=x:20")]
    [InlineData("skip=x:20:1e9")]
    [InlineData("silent=yes")]
    [InlineData("=")]
    [InlineData("drop=0.1,drop=0.2")]
    [InlineData("silent,silent")]
    [InlineData("late-ms=5")]
    public void What_is_not_understood_is_refused_with_what_would_be(string text)
    {
        var refused = Assert.Throws<RefusedException>(() => MockFaults.Parse(text));
        var answer = Assert.Single(refused.Refusals);
        Assert.StartsWith("faults", answer.Place);
        Assert.NotEmpty(answer.Allowed);
    }

    [Fact]
    public void Any_text_is_read_or_refused()
    {
        var names = FaultText.Forms.Select(form => form.Split('=')[0]).ToArray();
        var word = Gen.OneOf(Gen.Int[0, names.Length - 1].Select(index => names[index]), Gen.String[0, 12]);
        var value = Gen.OneOf(Gen.Int[0, Values.Length - 1].Select(index => Values[index]), Gen.String[0, 8]);
        Gen.Select(word, value, (name, text) => $"{name}={text}").Array[0, 8].Sample(words =>
        {
            try
            {
                Assert.NotNull(MockFaults.Parse(string.Join(',', words)));
            }
            catch (RefusedException refused)
            {
                Assert.NotEmpty(refused.Refusals);
            }
        }, iter: 2000);
    }
}

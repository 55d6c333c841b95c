using Bridge.Jobs;
using CsCheck;

namespace Bridge.Motion.Tests;

public class StoppingTests
{
    private static readonly RecordWidth N = RecordWidth.Four;
    private static readonly Machine Plotter = TestMachines.Of(TestMachines.Pen(), TestMachines.Dot());

    [Theory]
    [InlineData(Head.A)]
    [InlineData(Head.B)]
    public void A_stop_anywhere_in_a_row_loses_no_cell_and_ends_on_one(Head head)
    {
        var act = TestMachines.ActsOf(Plotter, Record.Row(N, head, new Cell(0, 3), 0, 12)).Last(act => act.Works);
        Gen.Double[0, 1].Sample(part =>
        {
            var at = part * act.Seconds;
            var done = Enumerable.Range(1, act.Cells).Count(cell => act.SecondsAtCell(cell) <= at);
            var stop = Stopping.Of(act, at, done);
            var workedInLast = act.Kind == ActKind.WorkDots ? stop.Last.Cells - done : stop.Last.Cells;
            Assert.Equal(act.Cells, done + workedInLast + stop.Rest.Cells);
            var offCell = (stop.Last.To - act.From).LengthMm % 10;
            Assert.True(offCell < 1e-6 || offCell > 10 - 1e-6, $"{offCell} mm off a cell");
            Assert.Equal(act.PlaceAt(at).XMm, stop.Last.PlaceAt(stop.Seconds).XMm, 6);
            if (stop.Rest.Kind != ActKind.None)
                Assert.Equal((stop.Last.To, act.To), (stop.Rest.From, stop.Rest.To));
            else
                Assert.Equal(act.To, stop.Last.To);
        }, iter: 500);
    }

    [Fact] // Top speed 50 mm/s on 200 mm/s²: 6.25 mm, so the stop after the cell at 50 mm, asked for at 52 mm, is the cell at 60 mm.
    public void A_pen_at_full_speed_stops_at_the_next_cell_it_can()
    {
        var act = TestMachines.ActsOf(Plotter, Record.Row(N, Head.A, new Cell(0, 0), 0, 16)).Last(act => act.Works);
        var stop = Stopping.Of(act, act.Profile.SecondsAt(52), 5);
        Assert.Equal(60, stop.Last.To.XMm, 9);
        Assert.Equal((1, 9), (stop.Last.Cells, stop.Rest.Cells));
        Assert.Equal(stop.Last.Seconds, stop.Last.SecondsAtCell(1), 9);
        Assert.Equal(50, stop.Last.Profile.InitialMmS, 9);
        Assert.Equal(0, stop.Rest.Profile.InitialMmS);
    }

    [Fact]
    public void An_idle_move_stops_at_once_and_goes_on_from_there()
    {
        var act = TestMachines.ActsOf(Plotter, Record.Go(Head.A, new Cell(10, 0)))[0];
        var stop = Stopping.Of(act, act.Profile.SecondsAt(40), 0);
        Assert.Equal(46.25, stop.Last.To.XMm, 9);
        Assert.Equal(53.75, stop.Rest.Profile.DistanceMm, 9);
    }

    [Fact]
    public void A_wait_is_broken_off_and_a_head_change_is_not()
    {
        var wait = TestMachines.ActsOf(Plotter, Record.Wait(N, 30))[0];
        var stop = Stopping.Of(wait, 1, 0);
        Assert.Equal((1.0, 2.0), (stop.Last.Seconds, stop.Rest.Seconds));
        var change = TestMachines.ActsOf(Plotter, Record.Go(Head.B, new Cell(0, 0)))[0];
        Assert.Equal(new Stopping(change, 1, default), Stopping.Of(change, 1, 0));
    }
}

using CsCheck;

namespace Bridge.Motion.Tests;

public class TrapezoidTests
{
    private static readonly Gen<(Trapezoid Profile, double Part)> Any =
        from limit in Gen.Double[0.1, 500]
        from accel in Gen.Double[0.1, 5000]
        from initial in Gen.Double[0, 1]
        from extra in Gen.Double[0.001, 200]
        from part in Gen.Double[0, 1]
        let v0 = initial * limit
        select (new Trapezoid(v0 * v0 / (2 * accel) + extra, limit, accel, v0), part);

    [Fact] // Computed from T = d/v + v/a; the same with Lynch and Park, Modern Robotics, section 9.2.2.2.
    public void A_long_move_holds_its_highest_speed()
    {
        var profile = new Trapezoid(100, 50, 200);
        Assert.Equal(2.25, profile.Seconds, 12);
        Assert.Equal(50, profile.PeakMmS);
        Assert.Equal(6.25, profile.PositionAt(0.25), 12);
        Assert.Equal(93.75, profile.PositionAt(2), 12);
    }

    [Fact] // Computed from T = 2√(d/a) and v = √(a·d).
    public void A_short_move_turns_from_speeding_up_to_slowing_down()
    {
        var profile = new Trapezoid(10, 50, 200);
        Assert.Equal(0.447214, profile.Seconds, 6);
        Assert.Equal(44.7214, profile.PeakMmS, 4);
    }

    [Fact] // Lynch and Park, Modern Robotics, section 9.2.2.2 (from memory): a path of length 1 takes (a + v²)/(v·a) where v²/a <= 1.
    public void A_path_of_length_one_takes_the_textbook_time() =>
        Assert.Equal((4 + 1.5 * 1.5) / (1.5 * 4), new Trapezoid(1, 1.5, 4).Seconds, 12);

    [Fact]
    public void No_distance_takes_no_time()
    {
        Assert.Equal(0, new Trapezoid(0, 50, 200).Seconds);
        Assert.Equal(0, default(Trapezoid).Seconds);
        Assert.Equal(0, default(Trapezoid).PositionAt(1));
        Assert.Equal(0, default(Trapezoid).SpeedAt(0));
        Assert.Equal(0, default(Trapezoid).SecondsAt(0));
    }

    [Fact] // v²/2a = 50²/400 = 6.25 mm, v/a = 0.25 s.
    public void A_move_with_just_the_room_to_stop_only_slows_down()
    {
        var profile = new Trapezoid(6.25, 50, 200, 50);
        Assert.Equal(0.25, profile.Seconds, 12);
        Assert.Equal(50, profile.PeakMmS);
    }

    [Fact]
    public void Speed_is_the_slope_of_position_and_keeps_the_limits() => Any.Sample(sample =>
    {
        var (profile, part) = sample;
        var at = part * profile.Seconds;
        var h = 1e-6 * profile.Seconds;
        var slope = (profile.PositionAt(at + h) - profile.PositionAt(at - h)) / (2 * h);
        return (at < h || at > profile.Seconds - h || Math.Abs(slope - profile.SpeedAt(at)) <= 1e-3 * profile.PeakMmS)
            && profile.SpeedAt(at) <= profile.LimitMmS * (1 + 1e-9)
            && profile.StoppingMm(at) <= profile.DistanceMm - profile.PositionAt(at) + 1e-6 * (1 + profile.DistanceMm);
    }, iter: 2000);

    [Fact]
    public void The_time_of_a_place_leads_back_to_the_place() => Any.Sample(sample =>
    {
        var place = sample.Part * sample.Profile.DistanceMm;
        return Math.Abs(sample.Profile.PositionAt(sample.Profile.SecondsAt(place)) - place) <= 1e-6 * (1 + sample.Profile.DistanceMm);
    }, iter: 2000);

    [Fact]
    public void A_stop_ends_at_the_first_place_that_leaves_room_for_it() =>
        Gen.Select(Any, Gen.Int[1, 40]).Sample((sample, places) =>
        {
            var (profile, part) = sample;
            var spacing = profile.DistanceMm / places;
            var at = part * profile.Seconds;
            var (from, need) = (profile.PositionAt(at), profile.StoppingMm(at));
            var stop = from + profile.ToRest(at, spacing).DistanceMm;
            var tolerance = 1e-6 * (1 + profile.DistanceMm);
            Assert.Equal(Math.Round(stop / spacing) * spacing, stop, tolerance);
            Assert.InRange(stop, from + need - tolerance, from + need + spacing + tolerance);
        }, iter: 2000);

    [Fact] // 50²/400 = 6.25 mm after 20 mm: places every 10 mm, so the next that it can stop at is 30 mm.
    public void A_stop_at_full_speed_passes_the_place_it_cannot_stop_at()
    {
        var profile = new Trapezoid(100, 50, 200);
        var toRest = profile.ToRest(profile.SecondsAt(24), 10);
        Assert.Equal(16, toRest.DistanceMm, 9);
        Assert.Equal(50, toRest.InitialMmS, 9);
        Assert.Equal(6.25, profile.ToRest(profile.SecondsAt(24), 0).DistanceMm, 9);
    }
}

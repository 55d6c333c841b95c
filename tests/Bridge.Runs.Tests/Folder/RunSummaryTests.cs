using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class RunSummaryTests
{
    internal static RunSummary Plain { get; } = new()
    {
        Outcome = RunOutcome.HeldTooLong, Words = "It held.", WhatToDo = "Look.", Machine = "Plotter", MachineDigest = "11aa", JobDigest = "22bb",
        Device = "mock", Began = DateTimeOffset.UnixEpoch, Seconds = 12.5, PredictedSeconds = 10, Records = 11, RecordsDone = 3,
        WorkedByA = 5, WorkedByB = 6, Retransmissions = 2, DamagedFrames = 1, Program = "0.1.0",
    };

    [Fact]
    public void A_page_is_read_back_as_it_was_written()
    {
        var whole = Plain with { JobSeconds = 9, CellsNotAsTold = 0, FramesSent = 40, FramesReceived = 50, RoundTrips = 7,
            RoundTripMs = new RoundTripMs(1, 2, 3.5) };
        Assert.Equal(whole, RunSummary.FromJson(whole.ToJson()));
        Assert.Equal(Plain, RunSummary.FromJson(Plain.ToJson()));
    }

    [Fact]
    public void A_page_is_for_people_too_in_lines_with_words_and_without_what_is_not_known()
    {
        var page = Plain.ToJson();
        Assert.Contains("\n  \"outcome\": \"HeldTooLong\"", page);
        Assert.Contains("\"format\": 1", page);
        Assert.DoesNotContain("jobSeconds", page);
        Assert.DoesNotContain("roundTrips", page);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("{}")]
    [InlineData("null")]
    public void What_is_no_page_is_none(string json) => Assert.Null(RunSummary.FromJson(json));

    [Fact]
    public void Round_trips_are_in_milliseconds_to_a_microsecond_and_none_where_none_was_measured()
    {
        Assert.Null(RoundTripMs.Of(default));
        var measured = new RoundTrips().With(TimeSpan.FromMicroseconds(1234.6)).With(TimeSpan.FromMicroseconds(3000));
        Assert.Equal(new RoundTripMs(1.235, 2.117, 3), RoundTripMs.Of(measured));
    }
}

using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class AbortTests
{
    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(20);

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Abort_at_any_cell_ends_aborted_and_the_record_says_just_what_was_worked(int times)
    {
        for (var cell = 1; cell <= 40; cell += times)
        {
            using var rig = Rig.OfSmallJob();
            var at = cell;
            rig.AtCell(worked =>
            {
                for (var time = 0; worked == at && time < times; time++)
                    rig.Run.Request(MachineCommand.Abort);
            });
            var end = rig.ToEnd();
            Assert.Equal((RunOutcome.Aborted, MachineState.Aborted), (end.Outcome, rig.Device.State));
            Assert.Equal(StateCause.StopOctets, rig.Device.Cause);
            Assert.Single(rig.Journal.Entries, entry => entry.Command == nameof(MachineCommand.Abort));
            rig.HasWorkedAPart();
            Assert.InRange(rig.Device.Gantry.CellsWorked, cell, cell + 1);
            rig.StaysSo();
        }
    }

    [Fact]
    public void Abort_asked_at_any_turn_of_the_beginning_ends_aborted_for_good()
    {
        for (var turn = 0; turn < 80; turn++)
        {
            using var rig = Rig.OfSmallJob();
            var asked = turn;
            rig.EachTurn(now =>
            {
                if (now == asked)
                    rig.Run.Request(MachineCommand.Abort);
            });
            Assert.Equal((RunOutcome.Aborted, MachineState.Aborted), (rig.ToEnd().Outcome, rig.Device.State));
            Assert.Empty(rig.Device.Gantry.Worked);
            Assert.False(rig.Device.Gantry.DriversAreOn);
            rig.StaysSo();
        }
    }

    [Fact]
    public void A_Stop_behind_an_Abort_changes_nothing()
    {
        for (var turn = 0; turn < 40; turn++)
        {
            using var rig = Rig.OfSmallJob();
            var asked = turn;
            rig.EachTurn(now =>
            {
                if (now != asked)
                    return;
                rig.Run.Request(MachineCommand.Abort);
                rig.Run.Request(MachineCommand.Stop);
            });
            Assert.Equal((RunOutcome.Aborted, MachineState.Aborted), (rig.ToEnd().Outcome, rig.Device.State));
        }
    }

    [Fact]
    public async Task A_command_that_was_about_to_leave_as_Abort_is_asked_for_does_not_leave_behind_the_STOP()
    {
        var rig = new ScriptedRig();
        rig.Run.StopOn(rig.Line);
        var buffer = new byte[4096];
        for (var isAsked = false; rig.Run.End is null;)
        {
            for (int count; (count = rig.Line.Read(buffer)) > 0;)
                rig.Run.Receive(buffer.AsSpan(0, count), rig.Time.Now);
            rig.Run.Tick(rig.Time.Now);
            if (!isAsked && rig.Journal.Entries.Any(entry => entry.Command == nameof(MachineCommand.Clear)))
            {
                rig.Run.Request(MachineCommand.Abort);
                isAsked = true;
            }

            rig.Run.WriteTo(rig.Line);
            await rig.Line.WaitAsync(TimeSpan.FromMilliseconds(1), CancellationToken.None);
        }

        Assert.Equal(RunOutcome.Aborted, rig.Run.End.Outcome);
        Assert.Empty(rig.Device.Commands);
    }

    [Fact]
    public void STOP_that_is_said_while_a_frame_is_being_written_is_said_again_behind_it()
    {
        var rig = new ScriptedRig();
        var line = new OvertakenLine(rig.Line) { Writing = () => rig.Run.Request(MachineCommand.Abort) };
        rig.Run.StopOn(line);
        rig.Run.Tick(rig.Time.Now);
        rig.Run.WriteTo(line);
        Assert.Equal([true, false, true], line.IsStop);
    }

    [Fact]
    public void STOP_leaves_by_whoever_asks_for_Abort_and_does_not_wait_for_the_run()
    {
        using var rig = Rig.OfSmallJob();
        rig.Run.StopOn(rig.Line);
        rig.Run.Request(MachineCommand.Stop);
        Assert.Empty(rig.Line.Bursts);
        rig.Run.Request(MachineCommand.Abort); // no Tick: the run may be busy with its journal
        Assert.Single(rig.Line.Bursts);
    }

    [Fact]
    public void STOP_leaves_at_once_also_when_the_run_has_ended()
    {
        using var rig = Rig.OfSmallJob();
        rig.ToEnd();
        Assert.Empty(rig.Line.Bursts);
        rig.Run.Request(MachineCommand.Abort);
        Assert.Single(rig.Line.Bursts);
    }

    [Fact]
    public void STOP_does_not_wait_behind_what_is_still_to_be_sent()
    {
        using var rig = Rig.OfSmallJob();
        var filler = new byte[40_000]; // flags, which say nothing: 0.8 s at 500 000 baud
        filler.AsSpan().Fill(FrameFormat.Flag);
        rig.AtCell(cell =>
        {
            if (cell != 3)
                return;
            rig.Line.Write(filler);
            rig.Run.Request(MachineCommand.Abort);
        });
        Assert.Equal(RunOutcome.Aborted, rig.ToEnd().Outcome);
        Assert.Equal(1, rig.Line.Overtakings);
        var told = rig.Watcher.States.Last(seen => seen.State == MachineState.Aborted).Elapsed;
        Assert.InRange(told - rig.Line.Bursts[0], TimeSpan.Zero, TimeSpan.FromMilliseconds(150));
    }

    [Fact]
    public void Abort_asked_before_anything_was_sent_still_sends_STOP()
    {
        using var rig = Rig.OfSmallJob();
        rig.Run.Request(MachineCommand.Abort);
        Assert.Equal(RunOutcome.Aborted, rig.ToEnd().Outcome);
        Assert.Equal(TimeSpan.Zero, rig.Line.Bursts[0]);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void Stop_and_then_Abort_ends_aborted(int turnsBetween)
    {
        using var rig = Rig.OfSmallJob();
        var turnsLeft = int.MaxValue;
        rig.AtCell(cell =>
        {
            if (cell != 3)
                return;
            rig.Run.Request(MachineCommand.Stop);
            turnsLeft = turnsBetween;
            if (turnsBetween == 0)
                rig.Run.Request(MachineCommand.Abort);
        });
        rig.EachTurn(_ =>
        {
            if (turnsLeft != int.MaxValue && --turnsLeft == 0)
                rig.Run.Request(MachineCommand.Abort);
        });
        Assert.Equal((RunOutcome.Aborted, MachineState.Aborted), (rig.ToEnd().Outcome, rig.Device.State));
        rig.HasWorkedAPart();
    }

    [Fact]
    public void On_a_line_that_drops_nine_frames_of_ten_STOP_is_repeated_until_the_machine_says_so()
    {
        for (var seed = 0; seed < 10; seed++)
        {
            var rig = new ScriptedRig(script: device => device.Executes = false);
            var random = new Random(seed);
            rig.Watcher.OnState = state =>
            {
                if (state != MachineState.Execute)
                    return;
                rig.Device.Says = status => random.Next(10) == 0 ? status : null;
                rig.Run.Request(MachineCommand.Abort);
            };
            var end = rig.ToEnd();
            Assert.Equal(RunOutcome.Aborted, end.Outcome);
            Assert.True(rig.Time.Now - rig.Device.Stops[0] < ScriptedRig.Answer);
            HaveTheirRhythm(rig.Device.Stops);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1900)]
    public void On_a_dead_line_STOP_goes_on_for_the_answers_time_out_and_the_end_says_that_nothing_is_known(int deadBeforeMs)
    {
        var rig = new ScriptedRig(script: device => device.Executes = false);
        var deadSince = TimeSpan.MaxValue;
        rig.Watcher.OnState = state =>
        {
            if (state != MachineState.Execute)
                return;
            rig.Device.IsDead = true;
            deadSince = rig.Time.Now;
        };
        var asked = false;
        rig.Line.EachTurn = _ =>
        {
            if (!asked && deadSince < TimeSpan.MaxValue && rig.Time.Now >= deadSince + TimeSpan.FromMilliseconds(deadBeforeMs))
            {
                asked = true;
                rig.Run.Request(MachineCommand.Abort);
            }
        };
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.LineLost, end.Outcome);
        Assert.Contains("not known whether it has stopped", end.Words);
        Assert.Contains("Press the e-stop", end.WhatToDo);
        Assert.InRange(rig.Device.Stops.Count, ScriptedRig.Answer / Interval, ScriptedRig.Answer / Interval + 2);
        HaveTheirRhythm(rig.Device.Stops);
    }

    [Fact]
    public void A_line_that_closes_while_the_machine_is_being_stopped_leaves_it_unknown()
    {
        var rig = new ScriptedRig(script: device => (device.Executes, device.HeedsStop) = (false, false));
        rig.Watcher.OnState = state =>
        {
            if (state == MachineState.Execute)
                rig.Run.Request(MachineCommand.Abort);
        };
        rig.Line.EachTurn = _ =>
        {
            if (rig.Device.Stops.Count == 3)
                rig.Device.ClosedBecause = "the cable is out";
        };
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.LineLost, end.Outcome);
        Assert.Contains("the cable is out", end.Words);
        Assert.Contains("not known whether it has stopped", end.Words);
    }

    [Fact]
    public void An_abort_of_a_device_that_has_the_run_tells_the_journal_how_far_it_came()
    {
        using var rig = Rig.OfSmallJob();
        rig.AtCell(cell =>
        {
            if (cell == 5)
                rig.Run.Request(MachineCommand.Abort);
        });
        Assert.Equal(RunOutcome.Aborted, rig.ToEnd().Outcome);
        var end = rig.Journal.Entries.Single(entry => entry.Kind == JournalKind.End);
        Assert.Equal((0L, 5L), (end.Records, end.Cells));
    }

    [Fact]
    public void A_device_that_reset_itself_before_the_abort_is_found_again_and_said_to_be_off()
    {
        var rig = new ScriptedRig(script: device => device.Executes = false);
        rig.Watcher.OnState = state =>
        {
            if (state != MachineState.Execute)
                return;
            rig.Device.Reset();
            rig.Run.Request(MachineCommand.Abort);
        };
        rig.Device.HeedsStop = false;
        Assert.Equal(RunOutcome.Aborted, rig.ToEnd().Outcome);
        Assert.Null(rig.Journal.Entries.Single(entry => entry.Kind == JournalKind.End).Records); // it does not know how far it came
        Assert.NotNull(rig.Journal.Entries.Last(entry => entry.Kind == JournalKind.Done).Records);
    }

    [Fact]
    public void A_Clear_that_was_on_its_way_is_not_sent_again_after_the_abort()
    {
        var rig = new ScriptedRig();
        rig.Device.Says = status => rig.Device.Commands.Count == 1 && rig.Device.Stops.Count == 0 ? null : status; // the answer to Clear is lost
        rig.Device.Heard = type =>
        {
            if (type == MessageType.Command)
                rig.Run.Request(MachineCommand.Abort);
        };
        Assert.Equal(RunOutcome.Aborted, rig.ToEnd().Outcome);
        Assert.Equal([MachineCommand.Clear], rig.Device.Commands);
        Assert.Equal(MachineState.Aborted, rig.Device.State);
    }

    // The first leaves as it is asked for, those of the run every 20 ms.
    private static void HaveTheirRhythm(List<TimeSpan> stops)
    {
        Assert.InRange(stops[1] - stops[0], TimeSpan.Zero, Interval);
        Assert.All(stops.Skip(1).Zip(stops.Skip(2)), pair => Assert.Equal(Interval, pair.Second - pair.First));
    }

    /// <summary>A line on which somebody asks for Abort in the midst of a write.</summary>
    private sealed class OvertakenLine(ILine line) : ILine
    {
        public required Action? Writing { get; set; }

        /// <summary>Of all that left, in order, whether it was STOP.</summary>
        public List<bool> IsStop { get; } = [];

        public bool IsOpen => line.IsOpen;

        public string? ClosedBecause => line.ClosedBecause;

        public void Write(ReadOnlySpan<byte> octets)
        {
            var writing = Writing;
            Writing = null;
            writing?.Invoke();
            IsStop.Add(octets.SequenceEqual(StopOctets.Burst));
        }

        public int Read(Span<byte> octets) => line.Read(octets);

        public ValueTask WaitAsync(TimeSpan atMost, CancellationToken cancellation) => line.WaitAsync(atMost, cancellation);

        public void Dispose() => line.Dispose();
    }
}

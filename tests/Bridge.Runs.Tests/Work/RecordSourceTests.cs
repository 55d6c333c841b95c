using Bridge.Jobs;

namespace Bridge.Runs.Tests;

public class RecordSourceTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(18)]
    public void Records_are_unrolled_and_sent_once_and_in_order_whatever_the_credit(int credit)
    {
        var job = Examples.SmallJob;
        var source = new RecordSource(Course.Whole(job.Image, job.Grid));
        var sent = new List<Record>();
        var buffer = new byte[55];
        int count;
        while ((count = source.Take(buffer, credit)) > 0)
            for (var at = 0; at < count; at++)
                sent.Add(RecordCodec.Read(job.Image.Width, buffer.AsSpan(at * 3)));

        List<Record> expected = [job.Image[0], job.Image[1], job.Image[2], job.Image[3]];
        for (var round = 0; round < 3; round++)
            expected.AddRange([job.Image[2], job.Image[3]]);
        expected.Add(Record.End);
        Assert.Equal(expected, sent);
        Assert.Equal((uint)expected.Count, source.Taken);
        Assert.Equal(ProvedJob.Of(job, Examples.Gantry).RecordsToSend, expected.Count);
    }

    [Fact]
    public void Without_credit_nothing_is_taken_and_nothing_is_lost()
    {
        var source = new RecordSource(Course.Whole(Examples.SmallJob.Image, Examples.SmallJob.Grid));
        Assert.Equal(0, source.Take(new byte[55], 0));
        Assert.Equal(0, source.Take(new byte[55], -3));
        Assert.Equal(1, source.Take(new byte[55], 1));
    }
}

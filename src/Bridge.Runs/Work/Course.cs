using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>
/// What one run on the wire executes: the records that lead a restarted machine back to a place of the job, if there are any, and then the
/// job's own records to its end. A run's counters count along its course; <see cref="PlaceOf"/> says where in the job that is.
/// </summary>
public sealed class Course
{
    private readonly Image _image;
    private readonly Grid _grid;
    private readonly IReadOnlyList<Pass> _wayBack;
    private readonly long _next; // the job's record that follows the way back

    private Course(Image image, Grid grid, JobPlace start, IReadOnlyList<Pass> wayBack)
    {
        (_image, _grid, Start, _wayBack) = (image, grid, start, wayBack);
        _next = start.Cells > 0 ? start.Records + 1 : start.Records;
    }

    /// <summary>The place of the job from which it works.</summary>
    public JobPlace Start { get; }

    /// <summary>A job from its beginning.</summary>
    public static Course Whole(Image image, Grid grid) => new(image, grid, JobPlace.Beginning, []);

    /// <summary>A job from a place of its own, for a machine that stands at home on layer 0.</summary>
    public static Course From(Image image, Grid grid, JobPlace start) => new(image, grid, start, WayBack.To(start, image, grid));

    /// <summary>Records of the whole course.</summary>
    /// <param name="recordsOfJob">Records of the job, each `again` unrolled, the `end` counted.</param>
    public long Records(long recordsOfJob) => _wayBack.Count + Math.Max(0, recordsOfJob - _next);

    /// <summary>The place in the job when so many records of the course are executed and so many cells of the next one worked.</summary>
    public JobPlace PlaceOf(long records, long cells)
    {
        if (records >= _wayBack.Count)
            return new JobPlace(_next + records - _wayBack.Count, cells);
        var worked = _wayBack.Take((int)records).Sum(pass => pass.Work.Cells) + cells;
        return Start with { Cells = Start.Cells + worked };
    }

    /// <summary>Goes through the course from its beginning.</summary>
    public IEnumerator<Pass> Passes()
    {
        foreach (var pass in _wayBack)
            yield return pass;
        var passes = new PassReader(_image, _grid);
        for (var index = 0L; passes.TryNext(out var pass); index++)
            if (index >= _next)
                yield return pass;
    }

    /// <summary>Whether the job has an `end` for the course to close with.</summary>
    internal bool HasEnd => _image.HasEnd;

    /// <summary>The size of its records.</summary>
    internal RecordWidth Width => _image.Width;

    /// <summary>The grid that it lies on.</summary>
    internal Grid Grid => _grid;
}

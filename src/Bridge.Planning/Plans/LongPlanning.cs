using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Planning;

/// <summary>Plans with more and more effort, for as long as a person wants to wait.</summary>
public static class LongPlanning
{
    private const double FirstEffort = 1.0 / 16;
    private const double MostEffort = 1000;
    private const double Growth = 4;

    /// <summary>The plan with the fewest records found until it is ended or no more effort can help; of equal ones that of the least time.</summary>
    /// <param name="shape">What is wanted.</param>
    /// <param name="machine">The machine.</param>
    /// <param name="better">Told each plan that is better than the one before; may be null.</param>
    /// <param name="ended">Ends it: a plan there is always, a quick one at least.</param>
    /// <exception cref="RefusedException">Nothing is to be worked, or the machine lacks the place or the head for it.</exception>
    public static Plan Plan(Shape shape, Machine machine, Action<Plan>? better, CancellationToken ended)
    {
        Plan? best = null;
        var seconds = double.PositiveInfinity;
        for (var effort = FirstEffort; best is null || (effort <= MostEffort && !ended.IsCancellationRequested); effort *= Growth)
        {
            var plan = Planner.Plan(shape, machine, effort, ended);
            var taken = Timetable.Of(Image.Of(plan.Width, plan.Records), machine).Seconds;
            if (best is not null && (plan.Records.Count, taken).CompareTo((best.Records.Count, seconds)) >= 0)
                continue;
            (best, seconds) = (plan, taken);
            better?.Invoke(plan);
        }
        return best;
    }
}

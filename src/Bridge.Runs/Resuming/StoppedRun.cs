using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>A run that was and may be gone on with, as its folder tells it.</summary>
/// <param name="Folder">The folder.</param>
/// <param name="Job">Its job, proved once more for its machine.</param>
/// <param name="History">Where it stands.</param>
/// <param name="Journal">Its journal.</param>
public sealed record StoppedRun(RunFolder Folder, ProvedJob Job, RunHistory History, JournalFile Journal)
{
    /// <summary>Reads it.</summary>
    /// <exception cref="RefusedException">It is no folder of a run, something in it is damaged, or the run never began.</exception>
    public static StoppedRun Read(string path)
    {
        var folder = RunFolder.Open(path);
        var machine = MachineFile.Read(folder.MachineFile);
        var job = ProvedJob.Of(JobFile.Read(folder.JobFile), machine);
        var journal = JournalFile.Read(folder.JournalFile);
        if (journal.Entries.Count == 0)
            throw new RefusedException(path, "a journal without an entry", "a run that has begun", "Nothing was started: run the job from its beginning.");
        return new StoppedRun(folder, job, RunHistory.Of(journal, folder.JournalFile, job), journal);
    }
}

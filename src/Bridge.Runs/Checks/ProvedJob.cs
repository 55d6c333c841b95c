using System.Security.Cryptography;
using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>A job that has been proved for a machine. There is no other way to one, so nothing unproved can be run.</summary>
public sealed class ProvedJob
{
    private ProvedJob(JobFile job, Machine machine, JobProof proof) => (Job, Machine, Proof) = (job, machine, proof);

    /// <summary>The job.</summary>
    public JobFile Job { get; }

    /// <summary>The machine that it was proved for.</summary>
    public Machine Machine { get; }

    /// <summary>What the proof found: no faults.</summary>
    public JobProof Proof { get; }

    /// <summary>Records that a run sends, each `again` unrolled, the `end` counted where there is one.</summary>
    public long RecordsToSend => Proof.Passes + (Job.Image.HasEnd ? 1 : 0);

    /// <summary>SHA-256 of the job file, in hexadecimal digits.</summary>
    public string JobDigest => Convert.ToHexStringLower(SHA256.HashData(Job.ToBytes()));

    /// <summary>Proves a job for a machine.</summary>
    /// <exception cref="RefusedException">It is not proved; the exception says all that keeps it.</exception>
    public static ProvedJob Of(JobFile job, Machine machine)
    {
        var proof = JobProof.Of(job, machine);
        return proof.IsProved
            ? new ProvedJob(job, machine, proof)
            : throw new RefusedException([.. proof.Faults.Select(fault => fault.Refusal)]);
    }
}

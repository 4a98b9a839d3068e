namespace FuelHistory.Host.Features.Assessments;

/// <summary>At most as many assessments at once as there are processors. Who waits holds no thread, so that other requests never wait for them.</summary>
public sealed class AssessmentGate : IDisposable
{
    private readonly SemaphoreSlim places;

    public AssessmentGate() : this(Environment.ProcessorCount)
    {
    }

    internal AssessmentGate(int most) => places = new SemaphoreSlim(most, most);

    /// <exception cref="OperationCanceledException">The sender gave up while it waited, or while it was computed.</exception>
    public async Task<T> Run<T>(Func<T> compute, CancellationToken cancel)
    {
        await places.WaitAsync(cancel);
        try
        {
            return await Task.Run(compute, cancel);
        }
        finally
        {
            places.Release();
        }
    }

    public void Dispose() => places.Dispose();
}

namespace FuelHistory.Host.Http;

/// <summary>Lets as many computations run at once as there are processors, and only one of the same question. Waiting takes no thread, so
/// that who asks whether the host lives is never kept waiting.</summary>
public sealed class ComputingGate : IDisposable
{
    private const int Rows = 16;

    private readonly SemaphoreSlim _running = new(Environment.ProcessorCount);
    private readonly SemaphoreSlim[] _same = [.. Enumerable.Range(0, Rows).Select(_ => new SemaphoreSlim(1))];

    /// <summary>A turn; it ends when it is disposed. Questions that share a row wait for each other, too.</summary>
    public async Task<IDisposable> Enter(string question, CancellationToken stop)
    {
        SemaphoreSlim same = _same[(uint)question.GetHashCode(StringComparison.Ordinal) % Rows];
        await same.WaitAsync(stop);
        try
        {
            await _running.WaitAsync(stop);
        }
        catch
        {
            same.Release();
            throw;
        }

        return new Turn(_running, same);
    }

    public void Dispose()
    {
        _running.Dispose();
        Array.ForEach(_same, s => s.Dispose());
    }

    private sealed class Turn(SemaphoreSlim running, SemaphoreSlim same) : IDisposable
    {
        public void Dispose()
        {
            running.Release();
            same.Release();
        }
    }
}

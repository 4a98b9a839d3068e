using System.Collections.Concurrent;

namespace FuelHistory.Host.Http;

/// <summary>Lets as many computations run at once as there are processors, and only one of the same question. Waiting takes no thread, so
/// that who asks whether the host lives is never kept waiting.</summary>
public sealed class ComputingGate : IDisposable
{
    private readonly SemaphoreSlim _running = new(Environment.ProcessorCount);
    private readonly ConcurrentDictionary<string, SemaphoreSlim> _same = new();

    /// <summary>How many may begin now without waiting.</summary>
    public int Free => _running.CurrentCount;

    public async Task<IDisposable> Enter(string question, CancellationToken stop)
    {
        SemaphoreSlim same = _same.GetOrAdd(question, _ => new SemaphoreSlim(1));
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

        return new Turn(() =>
        {
            _running.Release();
            same.Release();
            if (_same.Count > MaxQuestions)
            {
                _same.Clear();
            }
        });
    }

    public void Dispose() => _running.Dispose();

    private const int MaxQuestions = 1000;

    private sealed class Turn(Action end) : IDisposable
    {
        public void Dispose() => end();
    }
}

using System.Runtime.ExceptionServices;

namespace FuelHistory.Core.Assessment;

/// <summary>Independent questions asked on all processors; answers in the order of the questions, and the same bits as one after the other.</summary>
internal static class Each
{
    public static TAnswer[] Of<T, TAnswer>(IEnumerable<T> questions, Func<T, TAnswer> ask)
    {
        if (Environment.ProcessorCount == 1)
        {
            return [.. questions.Select(ask)];
        }

        try
        {
            return [.. questions.AsParallel().AsOrdered().Select(ask)];
        }
        catch (AggregateException e)
        {
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
            throw;
        }
    }

    /// <summary>Two pieces of work side by side.</summary>
    public static void Both(Action first, Action second) => Of([first, second], work =>
    {
        work();
        return true;
    });
}

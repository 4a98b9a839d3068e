using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;

namespace FuelHistory.Tests.Client;

/// <summary>A wire between client and stub that can be cut at once: nothing listens afterwards and open connections are gone.</summary>
internal sealed class Cable : IDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly ConcurrentBag<TcpClient> _open = [];
    private readonly Uri _far;

    public Cable(Uri far)
    {
        _far = far;
        _listener.Start();
        Address = new Uri($"http://127.0.0.1:{((IPEndPoint)_listener.LocalEndpoint).Port}");
        _ = Accept();
    }

    public Uri Address { get; }

    public void Cut()
    {
        _listener.Stop();
        foreach (var client in _open) client.Dispose();
    }

    public void Dispose()
    {
        Cut();
        _listener.Dispose();
    }

    private async Task Accept()
    {
        try
        {
            while (true) _ = Join(await _listener.AcceptTcpClientAsync());
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException or InvalidOperationException)
        {
            // cut
        }
    }

    private async Task Join(TcpClient near)
    {
        TcpClient far = new();
        _open.Add(near);
        _open.Add(far);
        try
        {
            await far.ConnectAsync(_far.Host, _far.Port);
            await Task.WhenAny(near.GetStream().CopyToAsync(far.GetStream()), far.GetStream().CopyToAsync(near.GetStream()));
        }
        catch (Exception e) when (e is SocketException or IOException or ObjectDisposedException or InvalidOperationException)
        {
            // cut
        }
        near.Dispose();
        far.Dispose();
    }
}
